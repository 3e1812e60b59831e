//! What the lines of the turned head mean.

use super::looked::Looked;
use crate::chart::Scene;
use crate::ui::parts::key_line;
use crate::words::tr;
use leptos::prelude::*;

/// A line of the key: how it is drawn, and what that means.
type Key = (&'static str, &'static str, &'static str);

/// What the lines of the picture mean: only those that are on the head in some turn of it.
#[component]
pub fn HeadKeys(looked: Looked) -> impl IntoView {
    let all = Memo::new(move |_| looked.scene(keys));
    let one = |(class, data, words): Key| key_line(class, data, words);
    view! {
        <ul class="key" aria-label=tr("What the lines mean")>
            {move || all.get().into_iter().map(one).collect_view()}
        </ul>
    }
}

fn keys(scene: &Scene) -> Vec<Key> {
    const ACROSS: &str = "M2 8 H38";
    const BOX: &str = "M3 2 H37 V14 H3 Z";
    let all: [(bool, Key); 10] = [
        (!scene.patch.is_empty(), ("d-patch", BOX, tr("The section"))),
        (
            !scene.roots.is_empty(),
            ("t-root", "M20 8 h0", tr("A root")),
        ),
        (
            !scene.strands.is_empty(),
            ("d-strand", ACROSS, tr("Its hair, held taut")),
        ),
        (
            !scene.strands.is_empty(),
            (
                "d-strand-behind",
                ACROSS,
                tr("Held hair that the head hides"),
            ),
        ),
        (
            !scene.line.is_empty(),
            (
                "d-fingers",
                ACROSS,
                tr("The fingers’ line, where it is cut"),
            ),
        ),
        (
            !scene.guide.is_empty(),
            (
                "d-strand-light",
                ACROSS,
                tr("The guide: the section before, held"),
            ),
        ),
        (
            !scene.hairs.is_empty(),
            ("t-hair", ACROSS, tr("Hair, let down and dry")),
        ),
        (
            !scene.hairs.is_empty(),
            ("t-hair-far", ACROSS, tr("Hair from behind the head")),
        ),
        (
            !scene.done.is_empty(),
            ("t-done", BOX, tr("Sections cut before")),
        ),
        (true, ("d-hairline", ACROSS, tr("The hairline"))),
    ];
    all.into_iter()
        .filter(|(there, _)| *there)
        .map(|(_, key)| key)
        .collect()
}
