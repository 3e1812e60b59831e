//! A scalp map whose sections can be touched, and what is told of the one that was.

use super::{Pick, Picture, told_line};
use crate::book::{Ready, SavedCut};
use crate::chart::{marked, place_on_picture, touched};
use crate::cut::{Outcome, SectionCut, SectionKey};
use crate::measure::{Length, Unit};
use crate::ui::kept::kept;
use crate::ui::words;
use crate::walk::Walk;
use crate::words::tr;
use kurbo::Point;
use leptos::{ev::MouseEvent, html, prelude::*};
use leptos_router::NavigateOptions;
use leptos_router::components::A;
use leptos_router::hooks::use_navigate;

/// A map that says where it was touched, in its own units. Who cannot touch has a list beside it.
#[component]
pub fn TouchMap(
    /// The map.
    #[prop(into)]
    svg: Signal<String>,
    /// What is seen, in a few words.
    #[prop(into)]
    caption: String,
    /// Called with the place.
    on_touch: Callback<Point>,
) -> impl IntoView {
    let area = NodeRef::<html::Div>::new();
    let touch = move |ev: MouseEvent| {
        // The picture's own box: its words stand below it.
        let inner = area
            .get_untracked()
            .and_then(|div| div.query_selector(".figure > div").ok().flatten());
        let Some(rect) = inner.map(|inner| inner.get_bounding_client_rect()) else {
            return;
        };
        let at = (
            f64::from(ev.client_x()) - rect.left(),
            f64::from(ev.client_y()) - rect.top(),
        );
        let place =
            svg.with_untracked(|svg| place_on_picture(svg, at, (rect.width(), rect.height())));
        if let Some(place) = place {
            on_touch.run(place);
        }
    };
    view! { <div class="touch-map" node_ref=area on:click=touch><Picture svg caption/></div> }
}

/// Goes to a section at the chair; none where the cut has not begun there.
pub fn go_to_chair(cut: RwSignal<SavedCut>) -> Option<Callback<SectionKey>> {
    let kept = kept();
    let navigate = use_navigate();
    let (id, begun) = cut.with_untracked(|cut| (cut.id.clone(), cut.walk.is_some()));
    begun.then(|| {
        Callback::new(move |key: SectionKey| {
            kept.change(cut, |cut| {
                if let Some(walk) = &mut cut.walk {
                    walk.go_to(&key);
                }
            });
            navigate(&format!("/cut/{id}/walk"), NavigateOptions::default());
        })
    })
}

/// A map whose sections can be touched or chosen from a list: the one that was is marked on it and told
/// below it, with the ways to see it held and to go to it.
#[component]
pub fn SectionMap(
    /// Which cut.
    id: String,
    /// What it is a map of.
    of: StoredValue<(Ready, Outcome)>,
    /// The map, nothing marked.
    #[prop(into)]
    svg: Signal<String>,
    /// The walk that cut it, if the map is of what was cut.
    #[prop(optional_no_strip)]
    walk: Option<Walk>,
    /// Goes to a section at the chair, if the cut has begun there.
    at_chair: Option<Callback<SectionKey>>,
    /// The id of what holds the map.
    holder: &'static str,
    /// What stands below all else: its table.
    below: AnyView,
    /// What stands right under the map: its legend.
    children: Children,
) -> impl IntoView {
    let kept = kept();
    let chosen = RwSignal::new(None::<SectionKey>);
    let touch = Callback::new(move |at: Point| {
        let last = chosen.get_untracked();
        let next =
            of.with_value(|(ready, outcome)| touched(&ready.head, outcome, at, last.as_ref()));
        if next.is_some() {
            chosen.set(next);
        }
    });
    let shown = Signal::derive(move || {
        let svg = svg.get();
        chosen.with(|key| {
            of.with_value(|(ready, outcome)| {
                let section = key.as_ref().and_then(|key| outcome.section(key));
                match section {
                    Some(section) => marked(&svg, &ready.head, &section.section.patch),
                    None => svg,
                }
            })
        })
    });
    let (keys, names): (Vec<SectionKey>, Vec<String>) = of.with_value(|(_, outcome)| {
        (1..)
            .zip(&outcome.sections)
            .filter(|(_, section)| section.cuts())
            .map(|(place, section)| (section.key.clone(), named(place, section)))
            .unzip()
    });
    let keys = StoredValue::new(keys);
    let place = Signal::derive(move || {
        chosen.with(|key| keys.with_value(|keys| keys.iter().position(|k| Some(k) == key.as_ref())))
    });
    let choose = Callback::new(move |place: usize| {
        chosen.set(keys.with_value(|keys| keys.get(place).cloned()));
    });
    let walk = StoredValue::new(walk);
    let told = move || {
        let key = chosen.get()?;
        let section = of.with_value(|(ready, outcome)| {
            outcome.section(&key).map(|section| {
                let cut = walk.with_value(|walk| {
                    walk.as_ref()
                        .and_then(|walk| walk.cut_at(&key, Some(section.long())))
                });
                told(&id, ready, section, cut, kept.unit())
            })
        })?;
        let go = at_chair.map(|at_chair| {
            view! { <button type="button" on:click=move |_| at_chair.run(key.clone())>{tr("Go to it at the chair")}</button> }
        });
        Some(view! { {section.0} <div class="edit-bar">{section.1}{go}</div> })
    };
    view! {
        <div class="side-by-side">
            <div>
                <div id=holder>
                    <TouchMap svg=shown caption=tr("From above, forehead up. Touch a section to see what it is; touch again for one that lies below it.") on_touch=touch/>
                </div>
                {children()}
            </div>
            <div>
                <Pick id="map-section" label=tr("Section") options=names chosen=place on_choose=choose none=tr("None yet")/>
                <div class="touched" aria-live="polite">{told}</div>
                {below}
            </div>
        </div>
    }
}

/// A section in the list: its place in the cutting order, its name, its side.
fn named(place: usize, section: &SectionCut) -> String {
    format!(
        "{place}. {}, {}",
        section.section.name,
        words::side(section.key.side).to_lowercase()
    )
}

/// What is told of a section, and the link to its hair held.
fn told(
    id: &str,
    ready: &Ready,
    section: &SectionCut,
    cut: Option<Length>,
    unit: Unit,
) -> (impl IntoView + use<>, impl IntoView + use<>) {
    let kept = kept();
    let key = &section.key;
    let brief = ready
        .plan
        .brief_for(section.step, key.number, &ready.choices, unit);
    let step = ready.plan.steps.get(section.step);
    let cut_at = format!(
        "{} {}",
        words::span(section.short(), section.long(), unit),
        unit.mark()
    );
    let name = format!(
        "{}, {}",
        section.section.name,
        kept.said(words::side(key.side)).to_lowercase()
    );
    let at = String::from(js_sys::encode_uri_component(&key.address()));
    let href = format!("/cut/{id}/see/head?at={at}");
    let title = step.map(|step| step.title.clone()).unwrap_or_default();
    (
        view! {
            <h3>{name}</h3>
            <dl class="instructions">
                {told_line(tr("Step"), tr!("{title}, section {}", key.number, title))}
                {told_line(tr("Cut, longest"), cut.map(|cut| cut.shown(unit)).unwrap_or_default())}
                {told_line(if cut.is_some() { tr("Was to be") } else { tr("Cut at") }, cut_at)}
                {told_line(tr("Elevation"), kept.said(&brief.lift))}
                {told_line(tr("Comb"), kept.said(&brief.comb))}
                {told_line(tr("Fingers"), kept.said(&brief.fingers))}
                {told_line(tr("Guide"), kept.said(&brief.guide))}
            </dl>
            {words::reach(section).map(|reach| view! { <p class="soft">{reach}</p> })}
        },
        view! { <A href=href attr:class="button">{tr("See it held")}</A> },
    )
}
