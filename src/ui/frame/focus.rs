//! Where the focus goes when what had it is gone: keys and screen readers would else begin anywhere.

use leptos::prelude::*;
use leptos::web_sys::{Element, FocusOptions, HtmlElement};
use leptos_router::hooks::use_location;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen::JsCast;

/// What can have the focus.
const FOCUSABLE: &str =
    "a[href], button:not(:disabled), input, select, textarea, summary, [tabindex=\"0\"]";
/// How often, and how many times, it is looked whether a new screen has its heading: three seconds in
/// all, for its code may still be on its way. Judgement.
const LOOK: Duration = Duration::from_millis(50);
const LOOKS: u32 = 60;
/// Until whatever a press changes is drawn.
const DRAWN: Duration = Duration::from_millis(30);

/// Looks after the focus: a screen that is come to has it on its heading; what is pressed and goes away
/// leaves it to what stands in its place; Escape presses what is marked with `data-escape`, the way
/// back out of a question or of what was opened.
pub fn look_after_focus() {
    let path = use_location().pathname;
    let visit = Rc::new(Visit::default());
    Effect::new(move |before: Option<String>| {
        let now = path.get();
        match before {
            // The browser begins at the top by itself.
            None => Arriving::at(&visit, true),
            Some(before) if before != now => Arriving::at(&visit, false),
            Some(_) => {}
        }
        now
    });
    let pressed = window_event_listener(leptos::ev::click, |event| {
        let pressed = event.target().and_then(|e| e.dyn_into::<Element>().ok());
        if let Some(left) = pressed.and_then(|pressed| pressed.closest(FOCUSABLE).ok()?) {
            let (way, here) = (way_up(&left), address());
            set_timeout(
                move || {
                    // Another screen has a heading.
                    if address() == here {
                        in_place_of(&left, &way);
                    }
                },
                DRAWN,
            );
        }
    });
    let escape = window_event_listener(leptos::ev::keydown, |event| {
        if event.key() == "Escape" && !event.default_prevented() {
            let out = found("main [data-escape]");
            if let Some(out) = out.and_then(|out| out.dyn_into::<HtmlElement>().ok()) {
                event.prevent_default();
                out.click();
            }
        }
    });
    on_cleanup(move || {
        pressed.remove();
        escape.remove();
    });
}

/// Puts the focus on the first element that a selector finds, if nothing has it.
pub fn focus_if_lost(selector: &'static str) {
    set_timeout(
        move || {
            if is_lost()
                && let Some(there) = found(selector)
            {
                focus(&there);
            }
        },
        DRAWN,
    );
}

/// The screen that is looked after, and what was last seen of its heading.
#[derive(Default)]
struct Visit {
    /// Counts screens: one that was left is not looked after any more.
    screen: Cell<u32>,
    /// What its heading said.
    heading: RefCell<String>,
}

/// Looks for the heading of a screen until it is there, and a little longer.
struct Arriving {
    visit: Rc<Visit>,
    /// Which screen it is.
    screen: u32,
    /// How often it is looked yet.
    left: u32,
    /// Whether the heading only is to be known, as the one before the next.
    quiet: bool,
    /// Whether it was found.
    found: bool,
    /// What the heading of the screen before said.
    before: String,
}

impl Arriving {
    fn at(visit: &Rc<Visit>, quiet: bool) {
        let screen = visit.screen.get().wrapping_add(1);
        visit.screen.set(screen);
        let arriving = Self {
            visit: Rc::clone(visit),
            screen,
            left: LOOKS,
            quiet,
            found: false,
            before: visit.heading.take(),
        };
        set_timeout(move || arriving.look(), LOOK);
    }

    /// Whether it is no more the heading of the screen before, whose element may serve again.
    fn is_new(&self, heading: &Element) -> bool {
        let known = heading.has_attribute("tabindex");
        self.found
            || self.left == 0
            || !known
            || heading.text_content().unwrap_or_default() != self.before
    }

    fn look(mut self) {
        if self.visit.screen.get() != self.screen {
            return;
        }
        if let Some(heading) = found("main h1").filter(|heading| self.is_new(heading)) {
            let _ = heading.set_attribute("tabindex", "-1");
            self.visit
                .heading
                .replace(heading.text_content().unwrap_or_default());
            // A link of the page's head stays when its screen has come.
            if !self.quiet && (is_lost() || (!self.found && !is_in_main())) {
                focus(&heading);
            }
            self.found = true;
        }
        if self.left > 0 {
            self.left -= 1;
            set_timeout(move || self.look(), LOOK);
        }
    }
}

/// What an element stands in, from the inside to the outside, and as which of its focusable ones.
fn way_up(left: &Element) -> Vec<(Element, u32)> {
    let mut way = Vec::new();
    let mut at = left.parent_element();
    while let Some(around) = at {
        let all = around.query_selector_all(FOCUSABLE).ok();
        let place = all.and_then(|all| {
            (0..all.length()).find(|&i| all.get(i).as_ref() == Some(left.as_ref()))
        });
        at = around.parent_element();
        way.push((around, place.unwrap_or(0)));
    }
    way
}

/// Puts the focus where an element was that is gone and had it.
fn in_place_of(left: &Element, way: &[(Element, u32)]) {
    if left.is_connected() || !is_lost() {
        return;
    }
    for (around, place) in way.iter().filter(|(around, _)| around.is_connected()) {
        let Ok(all) = around.query_selector_all(FOCUSABLE) else {
            continue;
        };
        let there = all.get((*place).min(all.length().saturating_sub(1)));
        if let Some(there) = there.and_then(|there| there.dyn_into::<Element>().ok()) {
            return focus(&there);
        }
    }
}

fn address() -> Option<String> {
    window().location().pathname().ok()
}

fn found(selector: &str) -> Option<Element> {
    document().query_selector(selector).ok()?
}

fn is_lost() -> bool {
    document()
        .active_element()
        .is_none_or(|at| at.tag_name() == "BODY" || at.tag_name() == "HTML")
}

fn is_in_main() -> bool {
    let at = document().active_element();
    at.is_some_and(|at| at.closest("main").is_ok_and(|main| main.is_some()))
}

/// Where the page stands stays: it is the browser that goes to the top of a new screen, or back to where
/// an old one was left.
fn focus(there: &Element) {
    let how = FocusOptions::new();
    how.set_prevent_scroll(true);
    if let Some(there) = there.dyn_ref::<HtmlElement>() {
        let _ = there.focus_with_options(&how);
    }
}
