//! Growth directions: tapped on the scalp map, or chosen by the name of the place.

use crate::chart::GrowthMap;
use crate::consult::{Growth, Mark, Topic};
use crate::head::{Head, Tapes};
use crate::measure::with_unit;
use crate::store::SavedCut;
use crate::ui::client::fields::Considered;
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, Options};
use leptos::{ev::MouseEvent, html, prelude::*};

/// The marks of one cut.
#[component]
pub fn GrowthMarks(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let head = StoredValue::new(cut.with_untracked(SavedCut::head).or_else(|_| {
        // Tapes that contradict each other are said on their own screen.
        Head::from_tapes(&Tapes::default())
    }));
    let marks = Memo::new(move |_| cut.with(|cut| cut.consultation.marks.clone()));
    let map = Memo::new(move |_| {
        head.with_value(|head| {
            let head = head.as_ref().ok()?;
            Some(Drawn(marks.with(|marks| GrowthMap::new(head, marks))))
        })
    });
    let growth = RwSignal::new(Growth::default());
    let place = RwSignal::new(0_usize);
    let said = RwSignal::new(String::new());
    let add = move |mark: Mark| {
        said.set(format!("Marked: {}.", described(&mark)));
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
        let spot = head.with_value(|head| {
            let head = head.as_ref().ok()?;
            map.with_untracked(|map| map.as_ref()?.0.spot(head, at, size))
        });
        match spot {
            Some(spot) => add(Mark::at(growth.get_untracked(), spot)),
            None => said.set("That is off the scalp. Tap within the hairline.".to_owned()),
        }
    };
    let add_named = move |_| {
        if let Some(mark) = Mark::at_named(growth.get_untracked(), place.get_untracked()) {
            add(mark);
        }
    };
    let kinds: Vec<(String, String)> = Growth::ALL
        .iter()
        .map(|growth| (growth.word().to_owned(), growth.name().to_owned()))
        .collect();
    let chosen = Signal::derive(move || growth.get().word().to_owned());
    let choose = Callback::new(move |word: String| {
        if let Some(one) = Growth::ALL.into_iter().find(|one| one.word() == word) {
            growth.set(one);
        }
    });
    let option =
        |(i, name): (usize, &'static str)| view! { <option value=i.to_string()>{name}</option> };
    let count = Memo::new(move |_| marks.with(Vec::len));
    let button = NodeRef::<html::Button>::new();
    let remove = Callback::new(move |i: usize| {
        kept.change(cut, |cut| {
            if i < cut.consultation.marks.len() {
                cut.consultation.marks.remove(i);
            }
        });
        said.set("Taken off.".to_owned());
        // The pressed button is gone; the next thing to press is this one.
        if let Some(button) = button.get_untracked() {
            let _ = button.focus();
        }
    });
    view! {
        <Options ask="What grows there" name="growth" options=kinds chosen on_choose=choose/>
        <div class="side-by-side">
            <figure class="figure">
                <div
                    class="growth-map"
                    node_ref=picture
                    on:click=tap
                    inner_html=move || map.with(|map| map.as_ref().map(|map| map.0.svg.clone()))
                ></div>
                <figcaption>"Tap the place on the map, seen from above. Or choose it by its name:"</figcaption>
            </figure>
            <div>
                <label for="growth-place">"Place"</label>
                <div class="field-and-button">
                    <select
                        id="growth-place"
                        on:change=move |ev| place.set(event_target_value(&ev).parse().unwrap_or_default())
                    >
                        {Mark::place_names().enumerate().map(option).collect_view()}
                    </select>
                    <button type="button" node_ref=button on:click=add_named>"Mark it"</button>
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

/// A map; two are alike if they look alike.
#[derive(Clone)]
struct Drawn(GrowthMap);

impl PartialEq for Drawn {
    fn eq(&self, other: &Self) -> bool {
        self.0.svg == other.0.svg
    }
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
    let mark = Memo::new(move |_| cut.with(|cut| cut.consultation.marks.get(i).cloned()));
    let text = Signal::derive(move || {
        let mark = mark.get().unwrap_or_default();
        if mark.longer.trim().is_empty() {
            mark.longer().0.shown(kept.unit())
        } else {
            mark.longer
        }
    });
    let set = Callback::new(move |text: String| {
        let text = with_unit(&text, kept.unit_now());
        kept.change(cut, |cut| {
            if let Some(mark) = cut.consultation.marks.get_mut(i) {
                mark.longer = text;
            }
        });
    });
    let name = move || mark.get().map(|mark| described(&mark));
    let fault = move || mark.get().and_then(|mark| mark.longer().1);
    view! {
        <li>
            <p class="mark-name">{name}</p>
            <LengthField id=format!("mark-{i}") label="Leave it longer by" text set/>
            <div aria-live="polite">{move || fault().map(|why| view! { <p class="fault">{why}</p> })}</div>
            <button type="button" on:click=move |_| remove.run(i)>
                "Remove"<span class="visually-hidden">" "{name}</span>
            </button>
        </li>
    }
}
