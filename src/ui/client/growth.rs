//! Growth directions: tapped on the scalp map, or chosen by the name of the place.

use crate::book::SavedCut;
use crate::chart::GrowthMap;
use crate::consult::{Growth, Mark, Topic};
use crate::head::{Head, Tapes};
use crate::ui::client::fields::Considered;
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, Options, fault_said};
use crate::words::tr;
use leptos::{ev::MouseEvent, html, prelude::*};

/// The marks of one cut.
#[component]
pub fn GrowthMarks(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let growth = RwSignal::new(Growth::default().word().to_owned());
    let place = RwSignal::new("0".to_owned());
    let said = RwSignal::new(String::new());
    let add = move |mark: Mark| {
        said.set(tr!("Marked: {}.", described(&mark)));
        kept.change(cut, |cut| cut.consultation.marks.push(mark));
    };
    let picture = NodeRef::<html::Div>::new();
    let tap = move |ev: MouseEvent| {
        let Some(rect) = picture
            .get_untracked()
            .map(|div| div.get_bounding_client_rect())
        else {
            return;
        };
        let at = (
            f64::from(ev.client_x()) - rect.left(),
            f64::from(ev.client_y()) - rect.top(),
        );
        let size = (rect.width(), rect.height());
        let spot = cut.with_untracked(|cut| drawn(cut, |head, map| map.spot(head, at, size)));
        match spot.flatten() {
            Some(spot) => add(Mark::at(grows(&growth.get_untracked()), spot)),
            None => said.set(tr("That is off the scalp. Tap within the hairline.").to_owned()),
        }
    };
    let add_named = move |_| {
        let place = place.get_untracked().parse().unwrap_or_default();
        if let Some(mark) = Mark::at_named(grows(&growth.get_untracked()), place) {
            add(mark);
        }
    };
    let kinds: Vec<(String, String)> = Growth::ALL
        .iter()
        .map(|growth| (growth.word().to_owned(), growth.name().to_owned()))
        .collect();
    let choose = Callback::new(move |word: String| growth.set(word));
    let option =
        |(i, name): (usize, &'static str)| view! { <option value=i.to_string()>{name}</option> };
    let count = Memo::new(move |_| cut.with(|cut| cut.consultation.marks.len()));
    let button = NodeRef::<html::Button>::new();
    let remove = Callback::new(move |i: usize| {
        kept.change(cut, |cut| {
            if i < cut.consultation.marks.len() {
                cut.consultation.marks.remove(i);
            }
        });
        said.set(tr("Taken off.").to_owned());
        // The pressed button is gone; the next thing to press is this one.
        if let Some(button) = button.get_untracked() {
            let _ = button.focus();
        }
    });
    view! {
        <Options ask=tr("What grows there") name="growth" options=kinds chosen=growth on_choose=choose/>
        <div class="side-by-side">
            <figure class="figure">
                <div
                    class="growth-map"
                    node_ref=picture
                    on:click=tap
                    inner_html=move || cut.with(|cut| drawn(cut, |_, map| map.svg.clone())).unwrap_or_default()
                ></div>
                <figcaption>{tr("Tap the place on the map, seen from above. Or choose it by its name:")}</figcaption>
            </figure>
            <div>
                <label for="growth-place">{tr("Place")}</label>
                <div class="field-and-button">
                    <select
                        id="growth-place"
                        on:change=move |ev| place.set(event_target_value(&ev))
                    >
                        {Mark::place_names().enumerate().map(option).collect_view()}
                    </select>
                    <button type="button" node_ref=button on:click=add_named>{tr("Mark it")}</button>
                </div>
                <p class="soft" role="status">{said}</p>
                <ol class="marks">
                    {move || (0..count.get()).map(|i| view! { <MarkRow cut i remove/> }).collect_view()}
                </ol>
            </div>
        </div>
        <Considered cut topic=Topic::Growth/>
    }
}

/// What `look` makes of the map of a cut; tapes that contradict each other are said on their own screen,
/// and here the mean head stands for theirs.
fn drawn<T>(cut: &SavedCut, look: impl FnOnce(&Head, &GrowthMap) -> T) -> Option<T> {
    let head = cut
        .head()
        .or_else(|_| Head::from_tapes(&Tapes::default()))
        .ok()?;
    let map = GrowthMap::new(&head, &cut.consultation.marks);
    Some(look(&head, &map))
}

/// The growth of this word.
fn grows(word: &str) -> Growth {
    let mut all = Growth::ALL.into_iter();
    all.find(|one| one.word() == word).unwrap_or_default()
}

fn described(mark: &Mark) -> String {
    format!(
        "{}, {}",
        mark.growth.name(),
        mark.place_name().to_lowercase()
    )
}

/// One mark: what it is, how much longer hair is left there, and a way to take it off.
#[component]
fn MarkRow(cut: RwSignal<SavedCut>, i: usize, remove: Callback<usize>) -> impl IntoView {
    let kept = kept();
    let mark = move || {
        cut.with(|cut| cut.consultation.marks.get(i).cloned())
            .unwrap_or_default()
    };
    let text = Signal::derive(move || {
        let mark = mark();
        if mark.longer.trim().is_empty() {
            mark.longer().0.shown(kept.unit())
        } else {
            mark.longer
        }
    });
    let set = Callback::new(move |text: String| {
        kept.change(cut, |cut| {
            if let Some(mark) = cut.consultation.marks.get_mut(i) {
                mark.longer = text;
            }
        });
    });
    let name = move || described(&mark());
    let fault = move || mark().longer().1;
    view! {
        <li>
            <p class="mark-name">{name}</p>
            <LengthField id=format!("mark-{i}") label=tr("Leave it longer by") text set/>
            {fault_said(fault)}
            <button type="button" on:click=move |_| remove.run(i)>
                {tr("Remove")}<span class="visually-hidden">" "{name}</span>
            </button>
        </li>
    }
}
