//! `precache DIST_DIR`: names the app's code by its content, and writes `DIST_DIR/sw.js`, the worker that
//! keeps the app usable offline. It runs natively, at the end of a build.
//!
//! The folder `app/` becomes `app-` and a fingerprint of all that is in it, so that no browser and no host
//! ever mixes the code of two versions. The worker is `public/sw.js` with two things filled in: the list of
//! all files of the build, each with a digest that its content is held against when it is fetched, and a
//! version that changes whenever one of them (or the worker itself) changes.

/// The browser has no use for this command; it only has to compile there.
#[cfg(target_arch = "wasm32")]
fn main() {}

#[cfg(not(target_arch = "wasm32"))]
fn main() -> std::process::ExitCode {
    let mut arguments = std::env::args_os().skip(1);
    let (Some(dist), None) = (arguments.next(), arguments.next()) else {
        eprintln!("Usage: precache DIST_DIR");
        return std::process::ExitCode::FAILURE;
    };
    match native::write_worker(std::path::Path::new(&dist)) {
        Ok(done) => {
            println!("{done}");
            std::process::ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("precache: {problem}");
            std::process::ExitCode::FAILURE
        }
    }
}

#[cfg(not(target_arch = "wasm32"))]
mod native {
    use base64::Engine;
    use base64::prelude::BASE64_STANDARD;
    use serde::Serialize;
    use sha2::{Digest, Sha384};
    use std::fs;
    use std::path::{Path, PathBuf};
    use thiserror::Error;

    /// The worker with its two gaps.
    const TEMPLATE: &str = include_str!("../../public/sw.js");
    /// The gap for the version, quotes included, so that the template is itself a valid script.
    const VERSION_GAP: &str = r#""{{version}}""#;
    /// The gap for the list of files.
    const FILES_GAP: &str = r#"["{{files}}"]"#;
    /// The worker's own name; it is never in its own list.
    const WORKER: &str = "sw.js";
    /// The page, and the address it is asked for by.
    const PAGE: &str = "index.html";

    /// The folder of the app's code, as the build makes it, and as the page names it.
    const CODE: &str = "app";
    const IN_PAGE: &str = "\"app/";

    /// What can go wrong, each as a sentence for the person at the terminal.
    #[derive(Debug, Error)]
    pub enum Problem {
        #[error("{} could not be read: {source}.", path.display())]
        Read {
            path: PathBuf,
            source: std::io::Error,
        },
        #[error("{} could not be written: {source}.", path.display())]
        Write {
            path: PathBuf,
            source: std::io::Error,
        },
        #[error("The file name \"{0}\" needs escaping in a web address. Please rename it.")]
        Name(String),
        #[error("There is no {PAGE} in {}. Is it the folder of a finished build?", .0.display())]
        NoPage(PathBuf),
        #[error("The worker's template should hold {0} exactly once.")]
        Template(&'static str),
        #[error("{PAGE} should name the app's code as {IN_PAGE}…, and does not.")]
        Unnamed,
        #[error("The list of files could not be written as JSON: {0}.")]
        Json(#[from] serde_json::Error),
    }

    /// One file of the build.
    #[derive(Debug, PartialEq)]
    struct Asset {
        /// Its path inside the build, with `/` between the parts.
        name: String,
        bytes: Vec<u8>,
    }

    /// Writes the worker for the build in `dist`; gives a sentence that says what was done.
    pub fn write_worker(dist: &Path) -> Result<String, Problem> {
        name_code(dist)?;
        let assets = all_below(dist)?;
        if !assets.iter().any(|asset| asset.name == PAGE) {
            return Err(Problem::NoPage(dist.to_owned()));
        }
        let version = version(TEMPLATE, &assets);
        let worker = fill(TEMPLATE, &version, &assets)?;
        let path = dist.join(WORKER);
        fs::write(&path, worker).map_err(|source| Problem::Write { path, source })?;
        Ok(format!(
            "The offline worker lists {} files, version {version}.",
            assets.len()
        ))
    }

    /// Names the folder of the code by its content, in the page too. A build that has it named already is
    /// left as it is.
    fn name_code(dist: &Path) -> Result<(), Problem> {
        let code = dist.join(CODE);
        if !code.is_dir() {
            return Ok(());
        }
        let named = format!("{CODE}-{}", version("", &all_below(&code)?));
        let page = dist.join(PAGE);
        let read = |source| Problem::Read {
            path: page.clone(),
            source,
        };
        let text = fs::read_to_string(&page).map_err(read)?;
        if !text.contains(IN_PAGE) {
            return Err(Problem::Unnamed);
        }
        let written = |path: &Path| {
            let path = path.to_owned();
            move |source| Problem::Write { path, source }
        };
        let text = text.replace(IN_PAGE, &format!("\"{named}/"));
        fs::write(&page, text).map_err(written(&page))?;
        fs::rename(&code, dist.join(&named)).map_err(written(&code))
    }

    /// Every file below a folder, by name.
    fn all_below(folder: &Path) -> Result<Vec<Asset>, Problem> {
        let mut assets = Vec::new();
        collect(folder, "", &mut assets)?;
        assets.sort_by(|a, b| a.name.cmp(&b.name));
        Ok(assets)
    }

    /// Reads every file below `folder` into `assets`. `prefix` is the folder's name in the build.
    fn collect(folder: &Path, prefix: &str, assets: &mut Vec<Asset>) -> Result<(), Problem> {
        let unreadable = |source| Problem::Read {
            path: folder.to_owned(),
            source,
        };
        for entry in fs::read_dir(folder).map_err(unreadable)? {
            let path = entry.map_err(unreadable)?.path();
            let name = format!("{prefix}{}", plain_name(&path)?);
            if path.is_dir() {
                collect(&path, &format!("{name}/"), assets)?;
            } else if name != WORKER {
                let bytes = fs::read(&path).map_err(|source| Problem::Read { path, source })?;
                assets.push(Asset { name, bytes });
            }
        }
        Ok(())
    }

    /// The last part of a path, if it can stand in a web address as it is.
    fn plain_name(path: &Path) -> Result<String, Problem> {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_');
        if !name.is_empty() && name.chars().all(plain) {
            Ok(name.into_owned())
        } else {
            Err(Problem::Name(name.into_owned()))
        }
    }

    /// A fingerprint of the worker's own text and of every name and content.
    fn version(template: &str, assets: &[Asset]) -> String {
        let mut hash = Fnv::new();
        hash.part(template.as_bytes());
        for asset in assets {
            hash.part(asset.name.as_bytes());
            hash.part(&asset.bytes);
        }
        format!("{:016x}", hash.0)
    }

    /// Fills the two gaps of the template.
    fn fill(template: &str, version: &str, assets: &[Asset]) -> Result<String, Problem> {
        let entries: Vec<Entry> = assets.iter().map(entry).collect();
        let files = serde_json::to_string_pretty(&entries)?;
        let with_version = fill_gap(template, VERSION_GAP, &serde_json::to_string(version)?)?;
        fill_gap(&with_version, FILES_GAP, &files)
    }

    /// A file in the worker's list: its address, relative to the worker's scope, and its digest.
    #[derive(Serialize)]
    #[serde(untagged)]
    enum Entry<'a> {
        /// The page has none: some hosts add to pages. The worker looks at what is in it instead.
        Page(&'static str),
        File(&'a str, String),
    }

    fn entry(asset: &Asset) -> Entry<'_> {
        if asset.name == PAGE {
            Entry::Page("./")
        } else {
            Entry::File(&asset.name, integrity(&asset.bytes))
        }
    }

    /// A digest as browsers take it (Subresource Integrity, W3C).
    fn integrity(bytes: &[u8]) -> String {
        ["sha384-", &BASE64_STANDARD.encode(Sha384::digest(bytes))].concat()
    }

    fn fill_gap(text: &str, gap: &'static str, with: &str) -> Result<String, Problem> {
        if text.matches(gap).count() == 1 {
            Ok(text.replace(gap, with))
        } else {
            Err(Problem::Template(gap))
        }
    }

    /// The 64-bit FNV-1a hash: it tells builds apart, and guards against nothing.
    struct Fnv(u64);

    impl Fnv {
        fn new() -> Self {
            Self(0xcbf2_9ce4_8422_2325)
        }

        fn bytes(&mut self, bytes: &[u8]) {
            for byte in bytes {
                self.0 = (self.0 ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
            }
        }

        /// Hashes the length first, so that moving a byte from one part to the next is a change.
        fn part(&mut self, part: &[u8]) {
            self.bytes(&(part.len() as u64).to_le_bytes());
            self.bytes(part);
        }
    }

    #[cfg(test)]
    mod tests {
        use super::*;

        /// A folder of its own for one test, removed at its end.
        struct Folder(PathBuf);

        impl Folder {
            fn new(name: &str) -> Self {
                let path = std::env::temp_dir()
                    .join(format!("tautline-precache-{name}-{}", std::process::id()));
                fs::create_dir_all(&path).expect("the temporary folder can be made");
                Self(path)
            }

            fn write(&self, name: &str, text: &str) {
                let path = self.0.join(name);
                let parent = path.parent().expect("a file lies in a folder");
                fs::create_dir_all(parent).expect("the folder can be made");
                fs::write(path, text).expect("the file can be written");
            }

            fn worker(&self) -> String {
                write_worker(&self.0).expect("the worker can be written");
                fs::read_to_string(self.0.join(WORKER)).expect("the worker can be read")
            }
        }

        impl Drop for Folder {
            fn drop(&mut self) {
                fs::remove_dir_all(&self.0).ok();
            }
        }

        fn asset(name: &str, text: &str) -> Asset {
            Asset {
                name: name.to_owned(),
                bytes: text.as_bytes().to_vec(),
            }
        }

        #[test]
        fn hash_agrees_with_published_values() {
            let hash = |text: &str| {
                let mut hash = Fnv::new();
                hash.bytes(text.as_bytes());
                hash.0
            };
            assert_eq!(hash(""), 0xcbf2_9ce4_8422_2325);
            assert_eq!(hash("a"), 0xaf63_dc4c_8601_ec8c);
            assert_eq!(hash("foobar"), 0x8594_4171_f739_67e8);
        }

        #[test]
        fn digests_agree_with_the_published_example() {
            // Subresource Integrity, W3C Recommendation of 2016, section 3.1.
            let wanted = "sha384-H8BRh8j48O9oYatfu5AZzq6A9RINhZO5H16dQZngK7T62em8MUt1FLm52t+eX6xO";
            assert_eq!(integrity(b"alert('Hello, world.');"), wanted);
        }

        #[test]
        fn version_changes_with_name_content_and_template() {
            let base = version("t", &[asset("a", "1"), asset("b", "2")]);
            assert_eq!(base, version("t", &[asset("a", "1"), asset("b", "2")]));
            assert_ne!(base, version("t", &[asset("a", "1"), asset("b", "3")]));
            assert_ne!(base, version("t", &[asset("a", "1"), asset("c", "2")]));
            assert_ne!(base, version("t", &[asset("a1", ""), asset("b", "2")]));
            assert_ne!(base, version("u", &[asset("a", "1"), asset("b", "2")]));
        }

        #[test]
        fn worker_lists_every_file_in_order_but_not_itself() {
            let folder = Folder::new("list");
            for name in ["index.html", "b.js", "a/icon.svg", "sw.js"] {
                folder.write(name, name);
            }
            let worker = folder.worker();
            let from = worker.find("const FILES = ").expect("the list is there") + 14;
            let list = worker[from..].split(';').next().unwrap_or_default();
            let list: serde_json::Value = serde_json::from_str(list).expect("it is JSON");
            let (icon, script) = (integrity(b"a/icon.svg"), integrity(b"b.js"));
            let wanted = serde_json::json!([["a/icon.svg", icon], ["b.js", script], "./"]);
            assert_eq!(list, wanted);
            assert!(!worker.contains("{{"), "no gap is left");
        }

        #[test]
        fn same_build_gives_same_worker_and_a_changed_one_another() {
            let folder = Folder::new("again");
            folder.write("index.html", "one");
            let first = folder.worker();
            assert_eq!(first, folder.worker());
            folder.write("index.html", "two");
            assert_ne!(first, folder.worker());
        }

        #[test]
        fn the_code_is_named_by_its_content_in_the_page_too() {
            let folder = Folder::new("code");
            let build = |code: &str| {
                folder.write("index.html", "<script src=\"app/tautline.js\">");
                folder.write("app/tautline.js", code);
                let worker = folder.worker();
                let page = fs::read_to_string(folder.0.join("index.html")).expect("it is there");
                let named = page.split('"').nth(1).expect("a path").to_owned();
                assert!(folder.0.join(&named).is_file() && worker.contains(&named));
                assert!(!folder.0.join("app").exists());
                named
            };
            let first = build("one");
            assert!(first.starts_with("app-") && first.len() == "app-/tautline.js".len() + 16);
            assert_ne!(first, build("two"));
            assert_eq!(first, {
                fs::remove_dir_all(folder.0.join(&first[..20])).ok();
                build("one")
            });
        }

        #[test]
        fn problems_are_sentences() {
            let folder = Folder::new("problems");
            let said = |folder: &Path| match write_worker(folder) {
                Ok(done) => done,
                Err(problem) => problem.to_string(),
            };
            assert!(said(&folder.0).starts_with("There is no index.html in "));
            assert!(said(&folder.0.join("none")).contains(" could not be read: "));
            folder.write("index.html", "");
            folder.write("app/tautline.js", "");
            assert!(said(&folder.0).contains("should name the app's code"));
            fs::remove_dir_all(folder.0.join("app")).expect("it can be removed");
            folder.write("my file", "");
            assert!(said(&folder.0).starts_with("The file name \"my file\" needs escaping"));
        }

        #[test]
        fn a_template_without_its_gaps_is_refused() {
            let problem = fill("const FILES = [];", "v", &[]);
            assert!(matches!(problem, Err(Problem::Template(VERSION_GAP))));
        }
    }
}
