//! How the app gets onto the home screen.

use crate::words::tr;
use leptos::prelude::*;

/// The way there, browser by browser. Style hides it where the app was opened from there, and shows its
/// button where the browser offers to do it: see `update.js`.
#[component]
pub fn OnHomeScreen() -> impl IntoView {
    let ways = [
        (
            tr("iPhone, iPad"),
            tr("In Safari press Share, then “Add to Home Screen”."),
        ),
        (
            tr("Android"),
            tr("In the browser’s menu choose “Install” or “Add to Home screen”."),
        ),
        (
            tr("Computer"),
            tr("Choose “Install” in the browser’s menu or in its address bar."),
        ),
    ];
    view! {
        <details class="home-screen">
            <summary>{tr("Put Tautline on the home screen")}</summary>
            <p>
                {tr("It then opens like any other app, with no network too, and the browser is less likely to clear what you saved.")}
            </p>
            <button type="button" class="when-installs" data-install="">{tr("Put it there")}</button>
            <dl>
                {ways
                    .map(|(device, way)| view! { <div><dt>{device}</dt><dd>{way}</dd></div> })
                    .collect_view()}
            </dl>
        </details>
    }
}
