//! The head: its tapes, each with a picture of where it goes.

use crate::book::{SavedCut, Shape};
use crate::chart::tape_picture;
use crate::head::{Back, Head, Kind, Tape, Tapes, Top};
use crate::ui::frame::{Stage, Stages, titled, with_cut};
use crate::ui::kept::kept;
use crate::ui::parts::{Options, ToPlan, Turns, Units, typed_length};
use crate::ui::words;
use crate::words::tr;
use leptos::prelude::*;
use leptos_router::components::A;

/// The head of one cut.
#[component]
pub fn HeadScreen() -> impl IntoView {
    titled(tr("The head"));
    with_cut(|cut| view! { <HeadForm cut/> })
}

#[component]
fn HeadForm(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kept = kept();
    let id = cut.with_untracked(|cut| cut.id.clone());
    let head = Memo::new(move |_| Drawn(cut.with(SavedCut::head)));
    let drawn = Turns::new(1).has_come(1);
    let fault = move || head.with(|head| head.0.as_ref().err().map(ToString::to_string));
    view! {
        <Stages id=id.clone() here=Stage::Head/>
        <h1>{tr("The head")}</h1>
        <p class="soft">{tr("Take what tapes you can, or none. What you leave empty is estimated from surveys of heads and marked.")}</p>
        <div class="side-by-side three">
            {move || (!kept.settings().seen).then(|| view! {
                <div>
                    <label for="title">{tr("Name of this cut")}</label>
                    <input
                        type="text"
                        id="title"
                        autocomplete="off"
                        prop:value=move || cut.with(|cut| cut.title.clone())
                        on:change=move |ev| {
                            kept.change(cut, |cut| cut.title = event_target_value(&ev))
                        }
                    />
                </div>
            })}
            <WhoseHead cut/>
            <Units/>
        </div>
        <div class="tapes">
            {Tape::ALL.into_iter().map(|tape| view! { <TapeField cut head tape drawn/> }).collect_view()}
        </div>
        <BackAndTop cut/>
        <div aria-live="polite">
            {move || fault().map(|why| view! { <p class="note warn">{why}</p> })}
        </div>
        <div class="actions">
            <A href=format!("/cut/{id}/client") attr:class="button">{tr("Client: talk it over first")}</A>
        </div>
        <ToPlan cut/>
    }
}

/// A head, or why there is none. Two are alike only if they read alike, which is all a screen sees.
#[derive(Clone)]
struct Drawn(Result<Head, crate::head::HeadError>);

impl PartialEq for Drawn {
    fn eq(&self, other: &Self) -> bool {
        let said = |drawn: &Self| match &drawn.0 {
            Ok(head) => Tape::ALL.map(|tape| head.measure(tape)).to_vec(),
            Err(_) => Vec::new(),
        };
        match (&self.0, &other.0) {
            (Err(a), Err(b)) => a == b,
            (Ok(a), Ok(b)) => said(self) == said(other) && a.skull() == b.skull(),
            _ => false,
        }
    }
}

/// What no tape can say of a head, by word: asked with `ask`, read and put by the two functions.
#[component]
fn ShapeOptions(
    cut: RwSignal<SavedCut>,
    ask: &'static str,
    name: &'static str,
    /// Each answer's word and what it is called.
    options: Vec<(&'static str, &'static str)>,
    word: fn(&Shape) -> &'static str,
    choose: fn(&mut Shape, &str),
) -> impl IntoView {
    let kept = kept();
    let owned = |(word, name): (&str, &str)| (word.to_owned(), name.to_owned());
    let options: Vec<(String, String)> = options.into_iter().map(owned).collect();
    let chosen = Signal::derive(move || cut.with(|cut| word(&cut.shape)).to_owned());
    let on_choose = Callback::new(move |text: String| {
        kept.change(cut, |cut| choose(&mut cut.shape, &text));
    });
    view! { <Options ask name options chosen on_choose/> }
}

/// Whose head it is.
#[component]
fn WhoseHead(cut: RwSignal<SavedCut>) -> impl IntoView {
    let kinds = Kind::ALL.map(|k| (k.word(), words::kind(k))).to_vec();
    view! {
        <ShapeOptions cut ask=tr("Whose head") name="kind" options=kinds
            word=|shape| shape.kind.word()
            choose=|shape, text| {
                shape.kind = pick(Kind::ALL, Kind::word, text).unwrap_or(shape.kind);
            }
        />
    }
}

/// The shape of the back and the top.
#[component]
fn BackAndTop(cut: RwSignal<SavedCut>) -> impl IntoView {
    let backs = Back::ALL.map(|b| (b.word(), words::back(b))).to_vec();
    let tops = Top::ALL.map(|t| (t.word(), words::top(t))).to_vec();
    view! {
        <div class="side-by-side">
            <ShapeOptions cut ask=tr("The back, from the side") name="back" options=backs
                word=|shape| shape.back.word()
                choose=|shape, text| {
                    shape.back = pick(Back::ALL, Back::word, text).unwrap_or(shape.back);
                }
            />
            <ShapeOptions cut ask=tr("The top") name="top" options=tops
                word=|shape| shape.top.word()
                choose=|shape, text| {
                    shape.top = pick(Top::ALL, Top::word, text).unwrap_or(shape.top);
                }
            />
        </div>
    }
}

/// The one of these whose word is `text`.
fn pick<T: Copy, const N: usize>(
    all: [T; N],
    word: impl Fn(T) -> &'static str,
    text: &str,
) -> Option<T> {
    all.into_iter().find(|one| word(*one) == text)
}

/// One tape.
#[component]
fn TapeField(
    cut: RwSignal<SavedCut>,
    head: Memo<Drawn>,
    tape: Tape,
    /// Whether the pictures are drawn yet.
    drawn: Memo<bool>,
) -> impl IntoView {
    let kept = kept();
    let key = tape.key();
    let typed = move || cut.with(|cut| cut.tapes.get(&tape).cloned().unwrap_or_default());
    let fault = Memo::new(move |_| cut.with(|cut| cut.tape_fault(tape)));
    let estimate = move || {
        let measure = head.with(|head| head.0.as_ref().ok().map(|head| head.measure(tape)))?;
        let unit = kept.unit();
        (measure.estimated() && typed().trim().is_empty())
            .then(|| tr!("Empty: about {}.", measure.shown(unit)))
    };
    let picture = move || {
        if !drawn.get() {
            return String::new();
        }
        head.with(|head| match &head.0 {
            Ok(head) => tape_picture(head, tape),
            // The mean head shows the way as well.
            Err(_) => Head::from_tapes(&Tapes::default())
                .map(|head| tape_picture(&head, tape))
                .unwrap_or_default(),
        })
    };
    let put = move |text: String| {
        kept.change(cut, |cut| {
            cut.tapes.insert(tape, text);
        });
    };
    view! {
        <div class="tape">
            <div class="tape-picture" inner_html=picture></div>
            <div>
                <label for=key>{tape.name()}</label>
                <p class="how" id=format!("{key}-how")>{tape.how()}</p>
                <input
                    type="text"
                    id=key
                    inputmode="text"
                    autocomplete="off"
                    aria-describedby=format!("{key}-how {key}-said")
                    aria-invalid=move || fault.get().is_some().to_string()
                    placeholder=move || kept.unit().mark()
                    prop:value=typed
                    on:change=move |ev| put(typed_length(&ev, kept.unit_now()))
                />
                <div id=format!("{key}-said") aria-live="polite">
                    {move || fault.get().map(|why| view! { <p class="fault">{why}</p> })}
                    {move || estimate().map(|words| view! { <p class="said">{words}</p> })}
                </div>
            </div>
        </div>
    }
}
