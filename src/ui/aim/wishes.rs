//! The list of what is wished, and of what may be changed for it.

use super::Aimer;
use crate::cut::{Height, Means, Turns, What, means_of};
use crate::measure::{Length, read_length};
use crate::plan::landmark_word;
use crate::ui::kept::kept;
use crate::ui::parts::{LengthField, fault_said};
use crate::words::tr;
use leptos::prelude::*;

/// Every wish, the most important first.
#[component]
pub(super) fn WishList(aimer: Aimer) -> impl IntoView {
    let order = Memo::new(move |_| {
        aimer
            .aims
            .with(|aims| aims.wishes.iter().map(|wish| wish.what).collect::<Vec<_>>())
    });
    let rows = move || {
        let order = order.get();
        let last = order.len();
        let row = |(i, what)| view! { <WishRow aimer what first={i == 0} last={i + 1 == last}/> };
        order.into_iter().enumerate().map(row).collect_view()
    };
    view! { <ol class="wish-list">{rows}</ol> }
}

#[component]
fn WishRow(aimer: Aimer, what: What, first: bool, last: bool) -> impl IntoView {
    let on = Memo::new(move |_| aimer.at(what).1);
    let toggle = move |ev| {
        let checked = event_target_checked(&ev);
        aimer.set(|aims| {
            if let Some(wish) = aims.wishes.iter_mut().find(|wish| wish.what == what) {
                wish.on = checked;
            }
        });
    };
    let shift = move |up| aimer.set(|aims| aims.shift(what, up));
    let name = what.name();
    view! {
        <li>
            <div class="wish-top">
                <label class="tick">
                    <input type="checkbox" prop:checked=on on:change=toggle/>
                    <span>{name} <span class="soft">{what.about()}</span></span>
                </label>
                <button type="button" disabled=first on:click=move |_| shift(true)>
                    <span aria-hidden="true">"↑"</span>
                    <span class="visually-hidden">{tr!("{name}: more important", name)}</span>
                </button>
                <button type="button" disabled=last on:click=move |_| shift(false)>
                    <span aria-hidden="true">"↓"</span>
                    <span class="visually-hidden">{tr!("{name}: less important", name)}</span>
                </button>
            </div>
            {move || {
                on.get().then(|| match what {
                    What::Off => view! { <MostOff aimer/> }.into_any(),
                    _ => view! { <HeightField aimer what/> }.into_any(),
                })
            }}
        </li>
    }
}

/// The name under which what does not read of a wish is kept.
fn field(what: What) -> String {
    format!("aim/{}", what.word())
}

/// Takes what was typed for a wish, or keeps it until it is put right.
fn typed(aimer: Aimer, what: What, text: String, read: Option<f64>) {
    let (name, good) = (field(what), read.is_some());
    kept().change(aimer.cut, |cut| {
        if good {
            cut.unread.remove(&name);
        } else {
            cut.unread.insert(name, text);
        }
    });
    if let Some(cm) = read {
        aimer.set(|aims| {
            if let Some(wish) = aims.wishes.iter_mut().find(|wish| wish.what == what) {
                match what {
                    What::Off => wish.most = cm,
                    _ => wish.at.below = cm,
                }
            }
        });
    }
}

/// What was typed for a wish and does not read.
fn unread(aimer: Aimer, what: What) -> Option<String> {
    aimer.cut.with(|cut| cut.unread.get(&field(what)).cloned())
}

/// The sentence about it.
#[component]
fn Fault(aimer: Aimer, what: What) -> impl IntoView {
    let fault = move || {
        let text = unread(aimer, what)?;
        let why = match what {
            What::Off => read_length(&text, kept().unit()).err(),
            _ => Height::read_below(&text, kept().unit()).err(),
        };
        why.map(|why| why.to_string())
    };
    fault_said(fault)
}

/// How much may come off.
#[component]
fn MostOff(aimer: Aimer) -> impl IntoView {
    let kept = kept();
    let text = Signal::derive(move || {
        unread(aimer, What::Off).unwrap_or_else(|| {
            let most = aimer
                .aims
                .with(|aims| aims.wish(What::Off).map(|wish| wish.most));
            Length::from_cm(most.unwrap_or_default()).shown(kept.unit())
        })
    });
    let set = Callback::new(move |text: String| {
        let read = read_length(&text, kept.unit_now()).ok();
        typed(aimer, What::Off, text, read.map(Length::cm));
    });
    view! {
        <div class="wish-more">
            <LengthField id="aim-off".to_owned() label=tr("No more off than") text set/>
            <Fault aimer what=What::Off/>
        </div>
    }
}

/// A height: a landmark and how far below it.
#[component]
fn HeightField(aimer: Aimer, what: What) -> impl IntoView {
    let kept = kept();
    let id = format!("aim-{}", what.word());
    let below = format!("{id}-below");
    let chosen = move |landmark| aimer.at(what).0.landmark == landmark;
    let options = what.landmarks().iter().map(|&landmark| {
        view! {
            <option value=landmark_word(landmark) prop:selected=move || chosen(landmark)>
                {landmark.name()}
            </option>
        }
    });
    let choose = move |ev| {
        let word = event_target_value(&ev);
        let mut all = what.landmarks().iter();
        if let Some(&landmark) = all.find(|&&l| landmark_word(l) == word) {
            kept.change(aimer.cut, |cut| {
                cut.unread.remove(&field(what));
            });
            aimer.lay(what, landmark.into());
            aimer.keep();
        }
    };
    let step = move |steps: i32| {
        let standing = aimer.standing();
        let height = untrack(|| aimer.at(what).0);
        let head = &standing.ready.head;
        aimer.lay(
            what,
            height.stepped(head, what.landmarks(), steps, kept.unit_now()),
        );
        aimer.keep();
    };
    let text = move || unread(aimer, what).unwrap_or_else(|| aimer.at(what).0.typed(kept.unit()));
    let read = move |ev| {
        let text = event_target_value(&ev);
        let unit = kept.unit_now();
        let read = Height::read_below(&text, unit).ok();
        typed(aimer, what, text, read);
    };
    view! {
        <div class="wish-more">
            <div>
                <label for=id.clone()>{tr!("{}: landmark", what.name())}</label>
                <select id=id on:change=choose>{options.collect_view()}</select>
            </div>
            <div class="length-field">
                <label for=below.clone()>{tr("Below it (with a minus, above it)")}</label>
                <div class="stepper">
                    <button type="button" on:click=move |_| step(1)>
                        <span aria-hidden="true">"↑"</span>
                        <span class="visually-hidden">{tr("Higher")}</span>
                    </button>
                    <input type="text" id=below autocomplete="off" prop:value=text on:change=read/>
                    <button type="button" on:click=move |_| step(-1)>
                        <span aria-hidden="true">"↓"</span>
                        <span class="visually-hidden">{tr("Lower")}</span>
                    </button>
                </div>
            </div>
            <Fault aimer what/>
        </div>
    }
}

/// What may be changed in the plan for it.
#[component]
pub(super) fn MeansList(aimer: Aimer) -> impl IntoView {
    let standing = aimer.standing();
    let title = |means: &Means| {
        let step = standing
            .plan
            .steps
            .iter()
            .find(|step| step.id == means.step);
        let title = step.map_or(means.step.clone(), |step| kept().said(&step.name()));
        let of = match means.turns {
            Turns::Length => tr("length"),
            Turns::Elevation => tr("lift"),
        };
        format!("{title}: {of}")
    };
    let row = |means: Means| {
        let name = title(&means);
        let own = means.clone();
        let free = move || aimer.aims.with(|aims| !aims.is_fixed(&own));
        let toggle = move |ev| {
            let free = event_target_checked(&ev);
            aimer.set(|aims| aims.fix(&means, !free));
        };
        view! {
            <label class="tick">
                <input type="checkbox" prop:checked=free on:change=toggle/>
                <span>{name}</span>
            </label>
        }
    };
    let rows = means_of(&standing.plan).into_iter().map(row).collect_view();
    view! {
        <details class="knowing">
            <summary>{tr("What may be changed for it")}</summary>
            <fieldset>
                <legend class="visually-hidden">{tr("What may be changed for it")}</legend>
                {rows}
            </fieldset>
        </details>
    }
}
