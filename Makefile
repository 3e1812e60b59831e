# Tautline: run it, test it, measure it. `make help` lists what there is.
#
# Needs a Debian machine with make and rustup; every other tool is installed when it is missing,
# and only then. Tools with no Debian package go into a folder of this project's own, $(TOOLS).

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.DELETE_ON_ERROR:
# Else rustc would look for make's job server, which it is not given.
unexport MAKEFLAGS MFLAGS
.DEFAULT_GOAL := help

PORT ?= 8080
TRUNK_VERSION := 0.21.14
# The generator must be of the very version that the app is linked with.
BINDGEN_VERSION := $(shell sed -n '/^name = "wasm-bindgen"$$/{n;s/.*"\(.*\)"/\1/p;q}' Cargo.lock)
# For machines whose own Node.js is too old for the browser tests.
NODE_OLDEST := 20
NODE_VERSION := 22.23.3

# Splits the code into the part of the first screen and those that come later.
SPLIT_VERSION := 0.2.4
# Looks over the dependencies; `make trust` only.
DENY_VERSION := 0.20.2

TOOLS := $(or $(XDG_CACHE_HOME),$(HOME)/.cache)/tautline-tools
BROWSER := tests/browser
export PATH := $(TOOLS)/bin:$(CURDIR)/$(BROWSER)/node_modules/.bin:$(HOME)/.cargo/bin:$(PATH)

# Views share their code instead of each having its own: 13 kB less on the way to the phone.
export CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS := --cfg erase_components

NODE_READY := $(BROWSER)/node_modules/.package-lock.json
# The offline worker is the last file that a build writes.
APP := dist/sw.js
SOURCES := $(shell find src public style -type f) Cargo.toml Cargo.lock Trunk.toml rust-toolchain.toml

.PHONY: help run build test bench drag next redraw turn many trust size shots pictures icons clean
.PHONY: format native wasm browser
.PHONY: code solve tools apt-build apt-test apt-trust rust node trunk bindgen split deny

help:
	@echo "make run     build the app and serve it on http://127.0.0.1:$(PORT) (PORT=… for another port)"
	@echo "make test    every check: format, lints, tests, documents, the built app in a browser"
	@echo "make format, native, wasm, browser: parts of it"
	@echo "make build   build the app into dist/"
	@echo "make tools   install what is missing, and nothing else"
	@echo "make bench   measure speed;  make drag, next, redraw, turn, many: in Chromium;  make size: weigh dist/"
	@echo "make trust   inject every fault, take every measure, print a table (GROUPS='storage soak' for some)"
	@echo "make pictures  take the README's pictures anew"
	@echo "make shots   take pictures of the app;  make icons: draw the PNG icons from the SVG ones"
	@echo "make code    only the code of the app, in parts;  make solve: the engine alone;  make clean"

run: $(APP)
	@exec node $(BROWSER)/serve.mjs dist $(PORT)

build: $(APP)

# ---- Checks. Two lines of work share the cores; the browser comes after, when the app is there. ----

test: format tools
	@$(MAKE) --no-print-directory -j2 --output-sync=target native wasm
	@$(MAKE) --no-print-directory browser
	@echo "Everything passed."

format: | rust
	cargo fmt --check

native: | rust
	cargo clippy --locked --all-targets -- -D warnings
	cargo test --locked
	RUSTDOCFLAGS=-Dwarnings cargo doc --locked --no-deps

wasm: | rust
	cargo clippy --locked --target wasm32-unknown-unknown --lib --bins -- -D warnings
	$(MAKE) --no-print-directory build

browser: $(APP) apt-test
	cd $(BROWSER) && node --test --test-reporter=spec --test-concurrency=2 --test-timeout=300000

bench: | rust
	cargo bench --locked

drag: $(APP) apt-test
	@node $(BROWSER)/drag.mjs

next: $(APP) apt-test
	@node $(BROWSER)/next.mjs

redraw: $(APP) apt-test
	@node $(BROWSER)/redraw.mjs

turn: $(APP) apt-test
	@node $(BROWSER)/turn.mjs

many: $(APP) apt-test
	@node $(BROWSER)/many.mjs

# What only this needs is large, and installed by it alone.
HEAVY_READY := $(BROWSER)/heavy/node_modules/.package-lock.json
$(HEAVY_READY): $(BROWSER)/heavy/package.json $(BROWSER)/heavy/package-lock.json | node
	cd $(BROWSER)/heavy && npm ci
	@touch $@

trust: $(APP) apt-trust deny $(HEAVY_READY)
	@node $(BROWSER)/trust.mjs $(GROUPS)

size: $(APP)
	@node $(BROWSER)/size.mjs

pictures: $(APP) apt-test
	@node $(BROWSER)/pictures.mjs

shots: $(APP) apt-test
	@node $(BROWSER)/shots.mjs

icons: $(NODE_READY) apt-test
	@node $(BROWSER)/icons.mjs

clean:
	rm -rf dist target

# ---- The app. Trunk stumbles over the NO_COLOR that many terminals and CI machines set. ----

$(APP): $(SOURCES) $(NODE_READY) | rust trunk bindgen split
	cargo fetch --locked
	env -u NO_COLOR trunk --offline --skip-version-check build --release
	@touch $@

# The code that goes to the phone, for Trunk to take. The linker leaves what the split needs to know; the
# bindings are made for the first part, and start it by themselves, for a file less on a slow line; the
# features are what rustc turns on for this target, and wasm-opt refuses them unnamed.
PHONE := target/phone
WASM_OPT := -Oz --reorder-functions-by-name -Oz --low-memory-unused --enable-bulk-memory --enable-bulk-memory-opt \
  --enable-call-indirect-overlong --enable-multivalue --enable-mutable-globals \
  --enable-nontrapping-float-to-int --enable-reference-types --enable-sign-ext

code:
	cargo rustc --locked --offline --target wasm32-unknown-unknown --profile app --bin tautline -- -Clink-arg=--emit-relocs
	rm -rf $(PHONE)
	mkdir -p $(PHONE)/app
	wasm-split-cli --target web --out-name tautline \
	  $${CARGO_TARGET_DIR:-target}/wasm32-unknown-unknown/app/tautline.wasm $(PHONE)/parts
	wasm-bindgen --target web --no-typescript --keep-lld-exports --no-demangle \
	  --out-name tautline --out-dir $(PHONE)/app $(PHONE)/parts/tautline.wasm
	rm $(PHONE)/parts/tautline.wasm
	cp $(PHONE)/parts/* $(PHONE)/app
	echo 'await __wbg_init();' >> $(PHONE)/app/tautline.js
	for part in $(PHONE)/app/*.wasm; do wasm-opt $(WASM_OPT) "$$part" -o "$$part"; done
	sed -n 's/^@import "\(.*\)";$$/\1/p' style/all.css | (cd style && xargs cat) \
	  | perl -0pe 's{/\*.*?\*/\s*}{}gs; s/^\s+//gm' > $(PHONE)/style.css

# The whole work of a plan as a command, and as code for the browser built like the app: to be timed.
SOLVE := cargo rustc --locked --target wasm32-unknown-unknown --profile app --bin solve -- -Clink-arg=--export=solve -Clink-arg=--export=plans
solve: | rust
	cargo build --locked --release --bin solve
	$(SOLVE)
	wasm-opt $(WASM_OPT) $${CARGO_TARGET_DIR:-target}/wasm32-unknown-unknown/app/solve.wasm -o $(PHONE)/solve.wasm

# ---- Tools. Each rule looks first, in no time, and installs only what is not there. ----

tools: apt-test rust $(NODE_READY) trunk bindgen split

# Installs Debian packages, each written as what-it-brings=package, where that thing is missing.
define apt
	@missing=(); for pair in $(1); do thing=$${pair%%=*}; \
	  command -v "$$thing" >/dev/null || [ -e "$$thing" ] || missing+=("$${pair#*=}"); done; \
	if [ $${#missing[@]} -gt 0 ]; then \
	  echo "Installing from Debian: $${missing[*]}."; \
	  as_root=(env DEBIAN_FRONTEND=noninteractive); \
	  if [ "$$(id -u)" != 0 ]; then as_root=(sudo "$${as_root[@]}"); fi; \
	  "$${as_root[@]}" apt-get update -q; \
	  "$${as_root[@]}" apt-get install -qy --no-install-recommends "$${missing[@]}"; \
	fi
endef

apt-build:
	$(call apt,cc=build-essential node=nodejs npm=npm /etc/ssl/certs/ca-certificates.crt=ca-certificates)

apt-test: apt-build
	$(call apt,chromium=chromium)

# MiniBrowser comes with libwebkit2gtk-4.1-0, on which the driver rests.
apt-trust: apt-test
	$(call apt,firefox-esr=firefox-esr WebKitWebDriver=webkit2gtk-driver Xvfb=xvfb)

# Asking cargo for its version makes rustup fetch what rust-toolchain.toml names.
rust: apt-build
	@cargo --version >/dev/null || rustup toolchain install
	@rustup target list --installed | grep -qx wasm32-unknown-unknown \
	  || rustup target add wasm32-unknown-unknown

# What Debian calls nodejs may be too old; then Node's own build comes from npm.
node: apt-build
	@node -e 'process.exit(parseInt(process.versions.node) < $(NODE_OLDEST) ? 1 : 0)' || { \
	  package=node-linux-$$(node -p process.arch); \
	  echo "Installing Node.js $(NODE_VERSION) into $(TOOLS)."; \
	  mkdir -p $(TOOLS)/bin; \
	  npm install --prefix $(TOOLS)/node --no-save --no-audit --no-fund --ignore-scripts "$$package@$(NODE_VERSION)"; \
	  ln -sf "$(TOOLS)/node/node_modules/$$package/bin/node" $(TOOLS)/bin/node; \
	}

$(NODE_READY): $(BROWSER)/package.json $(BROWSER)/package-lock.json | node
	cd $(BROWSER) && npm ci
	@touch $@

trunk: rust
	@trunk --version 2>/dev/null | grep -qx "trunk $(TRUNK_VERSION)" \
	  || cargo install trunk --version $(TRUNK_VERSION) --locked --root $(TOOLS)

# Without --locked: the lock file that this tool is published with does not resolve.
bindgen: rust
	@wasm-bindgen --version 2>/dev/null | grep -qx "wasm-bindgen $(BINDGEN_VERSION)" \
	  || cargo install wasm-bindgen-cli --version $(BINDGEN_VERSION) --root $(TOOLS)

split: rust
	@cargo install --list --root $(TOOLS) | grep -qx "wasm_split_cli_support v$(SPLIT_VERSION):" \
	  || cargo install wasm_split_cli_support --version $(SPLIT_VERSION) --features build-binary --locked --root $(TOOLS)

deny: rust
	@cargo-deny --version 2>/dev/null | grep -qx "cargo-deny $(DENY_VERSION)" \
	  || cargo install cargo-deny --version $(DENY_VERSION) --locked --root $(TOOLS)
