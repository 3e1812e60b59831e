//! What a restless hand does in the editor, in range or out of it.

use super::any;
use proptest::prelude::*;
use proptest::sample::Index;
use tautline::measure::{Unit, read_change, read_degrees};
use tautline::plan::{Area, Bound, Given, Held, Plan, Rule, Sides, Step};

/// What people type where a number is asked.
pub const TYPED: [&str; 20] = [
    "", " ", "0", "-0", "1", "12 cm", "8 1/2 in", "0.5", "-3", "−3 cm", "60", "149.9", "250",
    "1e9", "1e308", "1e-300", "NaN", "inf", "-inf", "🙂",
];

/// One thing that a hand may do in the editor.
#[derive(Clone, Debug)]
pub enum Edit {
    Duplicate(Index),
    Move(Index, Index),
    Remove(Index),
    Mirror(Index),
    ChangeOver(Index),
    Add,
    Kind(Index, usize),
    Held(Index, Held),
    Pattern(Index, usize),
    Spacing(Index, f64),
    Slope(Index, f64),
    Late(Index, bool),
    Region(Index, Vec<Bound>),
    Piece(Index, f64, f64),
    Tilt(Index, f64, f64),
    Sides(Index, Sides),
    Longer(Index, f64),
    Lift(Index, f64),
    Guide(Index, Index),
    Length(Index, f64),
    Speaks(Index, Index, bool),
    Words(Index, String),
}

/// A number that a field may come to hold, in range or out of it.
pub fn number() -> BoxedStrategy<f64> {
    let typed = prop::sample::select(&TYPED[..]).prop_filter_map("no number", |text| {
        let length = read_change(text, Unit::Cm).map(|l| l.cm()).ok();
        let degrees = read_degrees(text, (-180, 180)).ok();
        let number = length.or(degrees);
        // A number that can't be kept would make the whole cut unreadable.
        assert!(number.is_none_or(f64::is_finite), "{text}");
        number
    });
    prop_oneof![typed, -90.0..200.0_f64, 0.0..10.0_f64].boxed()
}

pub fn edit() -> BoxedStrategy<Edit> {
    let at = proptest::prelude::any::<Index>;
    let sides: &'static [Sides] = &[Sides::Both, Sides::Left, Sides::Right, Sides::Across];
    let words = prop::sample::select(&["", "🙂 \u{202e}", "Mine.\n\nTwo lines."][..]);
    prop_oneof![
        1 => at().prop_map(Edit::Duplicate),
        1 => (at(), at()).prop_map(|(i, j)| Edit::Move(i, j)),
        1 => at().prop_map(Edit::Remove),
        1 => at().prop_map(Edit::Mirror),
        1 => at().prop_map(Edit::ChangeOver),
        1 => Just(Edit::Add),
        2 => (at(), 0_usize..9).prop_map(|(i, kind)| Edit::Kind(i, kind)),
        2 => (at(), any::held("back")).prop_map(|(i, held)| Edit::Held(i, held)),
        2 => (at(), 0_usize..11).prop_map(|(i, kind)| Edit::Pattern(i, kind)),
        1 => (at(), number()).prop_map(|(i, cm)| Edit::Spacing(i, cm)),
        1 => (at(), 0.5..8.0_f64).prop_map(|(i, cm)| Edit::Spacing(i, cm)),
        1 => (at(), number()).prop_map(|(i, degrees)| Edit::Slope(i, degrees)),
        1 => (at(), prop::bool::ANY).prop_map(|(i, late)| Edit::Late(i, late)),
        2 => (at(), any::region()).prop_map(|(i, region)| Edit::Region(i, region)),
        1 => (at(), number(), number()).prop_map(|(i, width, depth)| Edit::Piece(i, width, depth)),
        1 => (at(), -60.0..60.0_f64, -45.0..45.0_f64).prop_map(|(i, f, l)| Edit::Tilt(i, f, l)),
        2 => (at(), any::one_of(sides)).prop_map(|(i, sides)| Edit::Sides(i, sides)),
        1 => (at(), number()).prop_map(|(i, cm)| Edit::Longer(i, cm)),
        1 => (at(), -20.0..20.0_f64).prop_map(|(i, cm)| Edit::Longer(i, cm)),
        2 => (at(), 0.0..=180.0_f64).prop_map(|(i, degrees)| Edit::Lift(i, degrees)),
        1 => (at(), at()).prop_map(|(i, j)| Edit::Guide(i, j)),
        1 => (at(), number()).prop_map(|(i, cm)| Edit::Length(i, cm)),
        1 => (at(), at(), prop::bool::ANY).prop_map(|(i, j, again)| Edit::Speaks(i, j, again)),
        1 => (at(), words).prop_map(|(i, text)| Edit::Words(i, text.to_owned())),
    ]
    .boxed()
}

fn set_length(held: &mut Held, cm: f64) {
    match held {
        Held::Fall(fall) => fall.below = Given::Fixed(cm),
        Held::Trim(trim) => trim.off = Given::Fixed(cm),
        Held::Taper(taper) => {
            taper.rise = cm / 10.0;
            taper.up_to = Given::Fixed(cm);
        }
        held => {
            if let Some(rule) = held.rule_mut() {
                *rule = if cm > 10.0 {
                    Rule::Length(Given::Fixed(cm))
                } else {
                    Rule::AmountOff(Given::Fixed(cm))
                };
            }
        }
    }
}

impl Edit {
    /// Does it, as the editor does; where there is nothing to do it to, nothing.
    pub fn make(&self, plan: &mut Plan) {
        let count = plan.steps.len();
        if count == 0 {
            return;
        }
        let step = |i: &Index| i.index(count);
        let ids: Vec<String> = plan.steps.iter().map(|s| s.id.clone()).collect();
        let own = |plan: &mut Plan, i: &Index, change: &dyn Fn(&mut Step)| {
            change(&mut plan.steps[i.index(count)]);
        };
        let parted = |plan: &mut Plan, i: &Index, change: &dyn Fn(&mut Area)| {
            change(&mut plan.steps[i.index(count)].area);
        };
        match self {
            Self::Duplicate(i) => drop(plan.duplicate(step(i))),
            Self::Move(i, j) => drop(plan.move_step(step(i), step(j))),
            Self::Remove(i) if count > 1 => plan.remove(step(i)),
            Self::Remove(_) => {}
            Self::Mirror(i) => drop(plan.mirror(step(i))),
            Self::ChangeOver(i) => plan.change_over(step(i)),
            Self::Add => drop(plan.add_step()),
            Self::Kind(i, kind) => own(plan, i, &|s| s.held = s.held.as_kind(*kind)),
            Self::Held(i, held) => own(plan, i, &|s| s.held = held.clone()),
            Self::Pattern(i, kind) => parted(plan, i, &|area| {
                if let Area::Parted { pattern, .. } = area {
                    *pattern = pattern.as_kind(*kind);
                }
            }),
            Self::Spacing(i, cm) => parted(plan, i, &|area| {
                if let Area::Parted { pattern, .. } = area
                    && let Some(spacing) = pattern.spacing_mut()
                {
                    *spacing = *cm;
                }
            }),
            Self::Slope(i, degrees) => parted(plan, i, &|area| {
                if let Area::Parted { pattern, .. } = area {
                    pattern.set_slope(*degrees);
                }
            }),
            Self::Late(i, late) => parted(plan, i, &|area| {
                if let Area::Parted { pattern, .. } = area {
                    pattern.set_begins_late(*late);
                }
            }),
            Self::Region(i, to) => parted(plan, i, &|area| {
                if let Area::Parted { region, .. } = area {
                    region.clone_from(to);
                }
            }),
            Self::Piece(i, to_width, to_depth) => parted(plan, i, &|area| {
                if let Area::FrontPiece { width, depth, .. } = area {
                    (*width, *depth) = (*to_width, *to_depth);
                }
            }),
            Self::Tilt(i, forward, left) => own(plan, i, &|s| {
                (s.tilt.forward, s.tilt.left) = (*forward, *left);
            }),
            Self::Sides(i, sides) => own(plan, i, &|s| s.sides = *sides),
            Self::Longer(i, cm) => own(plan, i, &|s| s.longer = *cm),
            Self::Lift(i, degrees) => own(plan, i, &|s| match &mut s.held {
                Held::Stationary(cut) => cut.elevation.degrees = *degrees,
                Held::Travelling(travel) => travel.elevation.degrees = *degrees,
                _ => {}
            }),
            Self::Guide(i, j) => own(plan, i, &|s| {
                if let Some(rule) = s.held.rule_mut() {
                    *rule = Rule::AsStep(ids[step(j)].clone());
                }
            }),
            Self::Length(i, cm) => own(plan, i, &|s| set_length(&mut s.held, *cm)),
            Self::Speaks(i, j, again) => own(plan, i, &|s| {
                let list = if *again { &mut s.recuts } else { &mut s.apart };
                list.push(ids[step(j)].clone());
            }),
            Self::Words(i, text) => own(plan, i, &|s| s.words.comb.clone_from(text)),
        }
    }
}
