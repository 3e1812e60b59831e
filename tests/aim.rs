//! Aiming: what is asked for is what the plan then gives, and what cannot be is said.

mod common;

use common::{from_head, mean_head, plan, step, surveyed_heads};
use tautline::cut::{AimError, Aimed, Goal, Job, MET, Means, Turns, aim, let_down};
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side, Spot};
use tautline::measure::{Length, Unit};
use tautline::plan::{
    Bound, Carried, Choices, Cut, End, Fall, FallLine, Fingers, Given, Held, Line, Over, Pattern,
    Plan, Rule, Start, Station, Travel, built_in,
};

fn front() -> Spot {
    Spot::at_degrees(2.0, 1.0)
}

fn back_centre() -> Spot {
    Spot::at_degrees(178.0, 0.95)
}

fn length(step: &str, range: (f64, f64)) -> Means {
    Means {
        step: step.to_owned(),
        turns: Turns::Length,
        range,
    }
}

fn elevation(step: &str, range: (f64, f64)) -> Means {
    Means {
        step: step.to_owned(),
        turns: Turns::Elevation,
        range,
    }
}

fn aimed(head: &Head, plan: &Plan, goals: &[Goal], means: &[Means]) -> Result<Aimed, AimError> {
    let job = Job {
        head,
        hair: &Hair::default(),
        plan,
        choices: &Choices::default(),
    };
    aim(&job, goals, means)
}

/// A front piece and layers brought up to it over the parting, back left alone.
fn layered() -> Plan {
    let fringe = vec![Bound::Before(Line::Fringe {
        depth: 4.0,
        width: 25.0,
    })];
    let fall = Held::Fall(Fall {
        to: Given::Fixed(Landmark::MouthCorner),
        line: FallLine::Level,
        below: Given::Fixed(0.0),
    });
    let layers = Held::Stationary(Cut {
        station: Station::Parting,
        elevation: from_head(90.0),
        over: Over::None,
        fingers: Fingers::ParallelToHead,
        length: Rule::Length(Given::Fixed(16.0)),
    });
    let radial = Pattern::Radial {
        spacing: 4.0,
        from: Start::Front,
    };
    let mut layers = step("layers", vec![], radial, layers);
    layers.recuts = vec!["front".to_owned()];
    plan(
        "waist",
        vec![step("front", fringe, Pattern::Whole, fall), layers],
    )
}

#[test]
fn front_pieces_end_where_they_are_wanted() {
    for head in surveyed_heads() {
        for landmark in [Landmark::JawCorner, Landmark::Chin] {
            let goal = Goal::EndsAt {
                place: front(),
                height: landmark.into(),
            };
            let means = [
                length("front", (-10.0, 15.0)),
                length("layers", (0.0, 20.0)),
            ];
            let answer = aimed(&head, &layered(), &[goal], &means).unwrap();
            let met = &answer.goals[0];
            println!("{landmark:?}: by {:.2?}, {:.2} cm off", answer.by, met.miss);
            assert!(met.miss.abs() <= MET && !met.gives_way() && met.against.is_empty());
            // Lower line, longer hair: an end for each cm, where nothing else holds it.
            assert!(met.sensitivity.iter().any(|s| *s < -0.3));
        }
    }
}

/// The weight goes where it is wanted: graduation builds it, and its elevation moves it.
#[test]
fn weight_is_brought_to_a_landmark_by_elevation() {
    let head = mean_head();
    let held = Held::Travelling(Travel {
        elevation: from_head(30.0),
        over: Over::None,
        fingers: Fingers::ParallelToHead,
        guide: Carried::Neighbour,
        length: Rule::Length(Given::Fixed(6.0)),
    });
    let pattern = Pattern::Horizontal {
        spacing: 2.0,
        from: End::Bottom,
    };
    let bob = plan("60", vec![step("a", vec![], pattern, held)]);
    let goal = Goal::WeightAt(Landmark::Chin.into());
    let means = [elevation("a", (-20.0, 55.0)), length("a", (-3.0, 6.0))];
    let answer = aimed(&head, &bob, &[goal], &means).unwrap();
    println!(
        "weight: by {:.2?}, {:.2} cm off",
        answer.by, answer.goals[0].miss
    );
    assert!(!answer.goals[0].gives_way());
    let down = let_down(&head, &answer.outcome.lengths, &Default::default(), 600).unwrap();
    assert!(down.weight.overall.line.is_some());
}

#[test]
fn a_limit_is_kept_and_says_what_it_stands_against() {
    let head = mean_head();
    let most = Goal::NoMoreOff(Length::from_cm(5.0));
    let chin = Goal::EndsAt {
        place: front(),
        height: Landmark::Chin.into(),
    };
    let means = [
        length("front", (-10.0, 60.0)),
        length("layers", (0.0, 60.0)),
    ];
    let both = [most.clone(), chin.clone()];
    let answer = aimed(&head, &layered(), &both, &means).unwrap();
    // Hair to the waist cannot end at the chin with five centimetres off.
    assert!(!answer.goals[0].gives_way(), "{:?}", answer.goals[0]);
    assert!(answer.goals[1].gives_way() && answer.goals[1].against == [0]);
    let said = chin.said(answer.goals[1].miss, Unit::Cm);
    assert!(said.contains("below the chin"), "{said}");
    // The other way round the limit gives way.
    let turned = aimed(&head, &layered(), &[chin, most], &means).unwrap();
    assert!(!turned.goals[0].gives_way() && turned.goals[1].gives_way());
    assert_eq!(turned.goals[1].against, [0]);
}

#[test]
fn the_built_in_plan_is_aimed_by_its_own_steps() {
    let head = mean_head();
    let plan = built_in("soft-layers-face-frame").unwrap();
    let goals = [
        Goal::EndsAt {
            place: front(),
            height: Landmark::JawCorner.into(),
        },
        Goal::NoShorter {
            place: back_centre(),
            height: Landmark::Collarbone.into(),
        },
        Goal::NoMoreOff(Length::from_cm(60.0)),
    ];
    let means = [
        length("front-guide", (-8.0, 12.0)),
        length("back", (-10.0, 10.0)),
        elevation("back", (-30.0, 60.0)),
    ];
    let answer = aimed(&head, &plan, &goals, &means).unwrap();
    for met in &answer.goals {
        println!(
            "{} {:?}",
            met.goal.said(met.miss, Unit::Cm),
            met.sensitivity
        );
        assert!(!met.gives_way(), "{met:?}");
        assert_eq!(met.sensitivity.len(), 3);
    }
}

#[test]
fn nonsense_is_refused_with_a_sentence() {
    let head = mean_head();
    let goal = [Goal::WeightAt(Landmark::Chin.into())];
    let refused = |means: &[Means]| aimed(&head, &layered(), &goal, means).unwrap_err();
    assert_eq!(refused(&[]), AimError::NoMeans);
    for means in [
        length("nowhere", (0.0, 1.0)),
        elevation("front", (0.0, 1.0)),
        length("layers", (1.0, -1.0)),
        length("layers", (f64::NAN, 1.0)),
    ] {
        assert!(matches!(refused(&[means]), AimError::NotThere(_)));
    }
    assert!(head.landmark(Landmark::Chin, Side::Centre).is_finite());
}
