//! Starts the app; nothing else.

#[cfg(target_arch = "wasm32")]
fn main() {
    console_error_panic_hook::set_once();
    tautline::ui::start();
}

/// The app itself lives in the browser; natively there are only the small commands.
#[cfg(not(target_arch = "wasm32"))]
fn main() {
    println!(
        "Tautline runs in the browser: `make run`. Native commands: `taut`, `head` and `lengths`."
    );
}
