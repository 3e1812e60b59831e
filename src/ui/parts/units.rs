//! In what lengths are shown.

use super::options::Options;
use crate::measure::{Unit, said};
use crate::ui::kept::kept;
use crate::words::tr;
use leptos::prelude::*;

/// Centimetres or inches, for all screens.
#[component]
pub fn Units() -> impl IntoView {
    let kept = kept();
    let chosen = Signal::derive(move || kept.unit().mark().to_owned());
    let on_choose = Callback::new(move |mark: String| {
        let inches = mark == Unit::Inches.mark();
        kept.set(|settings| settings.unit = if inches { Unit::Inches } else { Unit::Cm });
    });
    // Spelled as the person's English has it.
    move || {
        let option = |unit: Unit, name: &str| (unit.mark().to_owned(), name.to_owned());
        let options = vec![
            option(Unit::Cm, &said(tr("Centimetres"), kept.usage())),
            option(Unit::Inches, tr("Inches")),
        ];
        view! { <Options ask=tr("Lengths in") name="unit" options chosen on_choose/> }
    }
}
