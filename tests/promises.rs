//! What each built-in cut of a whole head promises, measured on a small, a mean and a large surveyed
//! head. Each promise is common practice, no source, unless one is named.

mod common;

use common::built::{ONE_LENGTH, ONE_LEVEL, done, rises, span};
use tautline::cut::{CuttingLine, Strand};
use tautline::fall::Quarter;
use tautline::geometry::Target;
use tautline::head::{Landmark, Side};
use tautline::plan::{Covers, built_ins};

/// The tolerance of interior layers in long hair, cm. Judgement.
const A_BLEND: f64 = 1.0;

/// All ends on one level; the heaviest edge there is.
#[test]
fn a_one_length_bob_ends_on_one_level() {
    for lower in [0.0, 2.0, 5.0] {
        for cut in done("one-length-bob", &[("lower", &format!("{lower} cm"))]) {
            let level = cut.level(Landmark::Chin) - lower;
            let off = cut.off_level(level);
            assert!(off < ONE_LEVEL, "{off}");
            // Above the shoulder, and in its natural fall as well.
            assert!(level > cut.level(Landmark::Shoulder) + 0.5);
            let line = cut.let_down().weight.overall.line.unwrap();
            println!("bob: {off:.3} cm off; let down {line:?}, level {level:.2}");
            // Near the shoulder the longest begins to lie on the slope of the neck.
            let free = level > cut.level(Landmark::Shoulder) + 4.0;
            assert!((line.z - level).abs() < 0.5 && (!free || line.sharpness > 0.9));
        }
    }
}

#[test]
fn long_one_length_hair_ends_on_one_level_below_the_shoulder() {
    for (word, landmark) in [
        ("collarbone", Landmark::Collarbone),
        ("chest", Landmark::Chest),
    ] {
        for cut in done("one-length-long", &[("landmark", word)]) {
            let off = cut.off_level(cut.level(landmark));
            println!("long: {off:.3} cm off");
            assert!(off < ONE_LEVEL, "{off}");
            assert!(cut.level(landmark) < cut.level(Landmark::Shoulder));
        }
    }
}

/// Short at the nape, each next section longer by s·cos e; the weight H·(1 − cos e) above the edge
/// for H cm of stack (the project's table, derived on a flat scalp); softer than one length; longer
/// towards the face.
#[test]
fn a_graduated_bob_is_stacked_below_a_weight_line() {
    let bobs = done("one-length-bob", &[]);
    for (cut, bob) in done("graduated-bob", &[]).iter().zip(&bobs) {
        let (shortest, _) = span(cut.cut().map(|s| s.after));
        let nape = cut.length(Landmark::Nape);
        assert!((nape - 3.5).abs() < 0.1 && nape < shortest + 0.2, "{nape}");
        let up: Vec<f64> = [1.0, 0.9, 0.8, 0.7, 0.6]
            .map(|out| cut.at(178.0, out))
            .to_vec();
        assert!(rises(&up), "{up:?}");
        let stack = cut.head.meridian(std::f64::consts::PI).hairline()
            * (1.0
                - cut
                    .head
                    .spot(cut.head.landmark(Landmark::Occipital, Side::Centre))
                    .out);
        let graduated = (cut.length(Landmark::Occipital) - nape) / stack;
        assert!(
            (graduated - 45_f64.to_radians().cos()).abs() < 0.1,
            "{graduated}"
        );
        let (ours, theirs) = (cut.let_down(), bob.let_down());
        let back = ours.weight.sides[2].line.unwrap();
        let edge = ours.edge.side(Quarter::Back).unwrap();
        let flat = stack * (1.0 - 45_f64.to_radians().cos());
        println!(
            "graduated: {:.2} cm above the edge, flat {flat:.2}; {:.2} cm below the bone",
            back.z - edge,
            cut.level(Landmark::Occipital) - back.z
        );
        assert!((back.z - edge - flat).abs() < 0.7);
        assert!(back.z < cut.level(Landmark::Occipital) && back.z > cut.level(Landmark::Chin));
        let soft = ours.weight.overall.line.unwrap().sharpness;
        assert!(
            soft < theirs.weight.overall.line.unwrap().sharpness - 0.15,
            "{soft}"
        );
        // Along the hairline from the ear to the face: longer, and lower.
        let to_face = [75.0, 55.0, 30.0, 10.0];
        let side = to_face.map(|az| cut.at(az, 0.97));
        assert!(rises(&side), "{side:.1?}");
        assert!(cut.ends(10.0, 0.97) < cut.ends(94.0, 0.97) - 1.5);
        // The side begins where the back ended.
        for out in [0.3, 0.6, 0.95] {
            let step = (cut.at(95.5, out) - cut.at(96.5, out)).abs();
            assert!(step < 1.0, "{step}");
        }
    }
}

/// The inside shorter than the outline (as public standards of the United Kingdom use the word); the
/// front slopes away from the face.
#[test]
fn long_graduation_is_shorter_inside_than_its_outline() {
    for (text, inside) in [("16 cm", 16.0), ("18 cm", 18.0), ("22 cm", 22.0)] {
        for cut in done("long-graduation", &[("inside", text)]) {
            let outline = cut.level(Landmark::Collarbone) - 13.0;
            for azimuth in [180.0, 165.0, 150.0] {
                let off = cut.ends(azimuth, 0.99) - outline;
                assert!(off.abs() < ONE_LEVEL, "{inside} {azimuth}: {off}");
            }
            let (crown, nape) = (cut.length(Landmark::Crown), cut.length(Landmark::Nape));
            assert!((crown - inside).abs() < 0.1, "{crown}");
            assert!(crown < nape - 1.5, "{crown} {nape}");
            let down: Vec<f64> = [0.3, 0.4, 0.5, 0.6].map(|out| cut.at(178.0, out)).to_vec();
            assert!(rises(&down), "{down:?}");
            // From the face back the ends lie lower and lower.
            let front = [8.0, 30.0, 52.0, 75.0].map(|az| -cut.ends(az, 0.97));
            println!("long graduation: crown {crown:.1}, outline {nape:.1}, front {front:.1?}");
            assert!(rises(&front), "{front:?}");
            assert!((front[0] + cut.level(Landmark::Chin)).abs() < 2.5);
        }
    }
}

#[test]
fn uniform_layers_are_one_length() {
    for (text, length) in [("5 cm", 5.0), ("10 cm", 10.0), ("20 cm", 20.0)] {
        for cut in done("uniform-layers", &[("length", text), ("before", "chest")]) {
            let (low, high) = span(cut.cut().filter(|s| s.reaches()).map(|s| s.after));
            println!("uniform: {low:.2} to {high:.2}");
            assert!(high - low < ONE_LENGTH, "{low} {high}");
            assert!((low - length).abs() < ONE_LENGTH && (high - length).abs() < ONE_LENGTH);
            // No weight line: fewer than a quarter of all ends near the densest level.
            assert!(cut.let_down().weight.overall.line.unwrap().sharpness < 0.25);
        }
    }
}

/// Every end on a floor or a wall; shortest where the head is nearest, longest at the corners.
#[test]
fn square_layers_are_cut_to_planes_and_longest_at_the_corners() {
    for cut in done("square-layers", &[("before", "chest")]) {
        for step in ["top", "sides", "back"] {
            for section in cut.step(step) {
                let CuttingLine::Straight(Target::Plane { through, normal }) =
                    **section.line.as_ref().unwrap()
                else {
                    panic!("a plane");
                };
                for strand in section.strands.iter().filter(|s| s.reaches()) {
                    let meets = strand.path.unwrap().meets;
                    assert!((meets - through).dot(normal).abs() < 1e-6);
                }
            }
            let (shortest, _) = span(cut.strands(step).filter(|s| s.reaches()).map(|s| s.after));
            assert!((shortest - 8.0).abs() < 0.2, "{step} {shortest}");
        }
        let nearest = [
            cut.length(Landmark::HighPoint),
            cut.at(94.0, 0.92),
            cut.length(Landmark::Occipital),
        ];
        let (_, middle) = span(nearest);
        // Where top, side and back meet, and where top and side meet at the front.
        let corners = [(142.0, 0.5), (45.0, 0.7)].map(|(az, out)| cut.at(az, out));
        println!("square: nearest {nearest:.1?}, corners {corners:.1?}");
        for corner in corners {
            assert!(corner > middle + 1.0, "{corner} {middle}");
        }
        // The planes meet: no step over the corner.
        for azimuth in [60.0, 90.0, 120.0, 150.0, 180.0] {
            let round: Vec<f64> = (2..20)
                .map(|i| cut.at(azimuth, f64::from(i) / 20.0))
                .collect();
            for pair in round.windows(2) {
                assert!((pair[0] - pair[1]).abs() < 1.9, "{azimuth}: {round:.1?}");
            }
        }
    }
}

/// The corners no longer than the middle, without a step.
#[test]
fn round_layers_leave_nothing_at_the_corners() {
    for cut in done("round-layers", &[]) {
        let middle = cut.length(Landmark::HighPoint);
        for azimuth in [45.0, 60.0, 90.0, 120.0, 150.0, 178.0] {
            let down: Vec<f64> = (1..20)
                .map(|i| cut.at(azimuth, f64::from(i) / 20.0))
                .collect();
            for pair in down.windows(2) {
                assert!((pair[0] - pair[1]).abs() < 0.5, "{azimuth}: {down:.2?}");
            }
            let (_, longest) = span(down[8..].iter().copied());
            assert!(longest < middle + 0.1, "{azimuth}: {longest} {middle}");
        }
        assert!(cut.at(135.0, 0.45) < middle - 0.5 && cut.at(90.0, 0.5) < middle - 0.5);
        println!(
            "round: middle {middle:.2}, corner {:.2}",
            cut.at(135.0, 0.45)
        );
    }
}

/// Longer the further from the guide; what does not reach is the outline, and stays.
#[test]
fn long_layers_grow_with_the_distance_from_the_guide() {
    for (text, top) in [("16 cm", 16.0), ("20 cm", 20.0), ("30 cm", 30.0)] {
        for cut in done("long-layers", &[("top", text)]) {
            for section in cut.step("layers") {
                for row in section.strands.chunks(3) {
                    let lengths: Vec<f64> = row.iter().map(|s| s.after).collect();
                    let reach = row.iter().all(Strand::reaches);
                    assert!(!reach || rises(&lengths), "{lengths:?}");
                }
            }
            let chest = cut.level(Landmark::Chest);
            let whole = [180.0, 165.0].map(|az| (cut.ends(az, 0.98) - chest).abs());
            println!("long layers: outline off {whole:.3?}");
            assert!(whole.iter().all(|off| *off < ONE_LEVEL));
            let (high, occipital) = (
                cut.length(Landmark::HighPoint),
                cut.length(Landmark::Occipital),
            );
            assert!(
                (high - top).abs() < 0.1 && high < occipital,
                "{high} {occipital}"
            );
        }
    }
}

/// Front short, back long: both halves of the back alike, longest next to the middle.
#[test]
fn back_hair_brought_forward_is_longest_in_the_middle() {
    for landmark in ["chin", "shoulder"] {
        for cut in done("back-layers-forward", &[("landmark", landmark)]) {
            let round = [112.0, 130.0, 145.0, 160.0, 178.0];
            // Along a level parting.
            let level = |az: f64| cut.level_out(az, 2.0);
            let lengths = round.map(|az| cut.at(az, level(az)));
            println!("forward: {lengths:.1?}");
            assert!(rises(&lengths), "{lengths:?}");
            let other = round.map(|az| cut.at(-az, level(az)));
            for (left, right) in lengths.iter().zip(other) {
                assert!((left - right).abs() < 0.01);
            }
            // Lower, too: the ends slope from ear to middle.
            assert!(rises(&round.map(|az| -cut.ends(az, 0.9))));
        }
    }
}

#[test]
fn a_face_frame_is_shortest_at_the_face_and_keeps_the_back() {
    for cut in done("soft-layers-face-frame", &[]) {
        let round = [12.0, 40.0, 70.0, 100.0];
        assert!(rises(&round.map(|az| cut.at(az, 0.95))));
        assert!(rises(&[12.0, 60.0, 120.0, 178.0].map(|az| cut.at(az, 0.5))));
    }
}

/// The step between the top and the length is there all round, and the plan says that it is wanted.
#[test]
fn a_disconnected_shape_has_its_step_and_says_so() {
    for landmark in ["shoulder", "collarbone", "chest"] {
        for cut in done("disconnected-layers", &[("landmark", landmark)]) {
            let top = cut.plan.steps.iter().find(|s| s.id == "top").unwrap();
            assert_eq!(top.apart, ["outline"]);
            let (low, high) = span(cut.strands("top").map(|s| s.after));
            assert!(high - low < ONE_LENGTH, "{low} {high}");
            let (least, _) = span([60.0, 90.0, 120.0, 150.0, 178.0].map(|azimuth| {
                let down: Vec<f64> = (1..40)
                    .map(|i| cut.at(azimuth, f64::from(i) / 40.0))
                    .collect();
                let steps: Vec<f64> = down.windows(2).map(|p| p[1] - p[0]).collect();
                let big = steps.iter().filter(|step| step.abs() > 3.0).count();
                assert_eq!(big, 1, "{azimuth}: {down:.1?}");
                span(steps).1
            }));
            println!("disconnected: a step of {least:.1} cm at least");
            assert!(least > 8.0, "{least}");
        }
    }
}

/// Hair half a centimetre apart differs by less than a blend, everywhere, unless the plan says that it
/// wants a step. A fringe stands apart from the rest by what it is.
#[test]
fn there_is_no_step_that_nobody_wanted() {
    for plan in built_ins() {
        if plan.covers == Covers::Part {
            continue;
        }
        let wanted = plan.steps.iter().any(|s| !s.apart.is_empty());
        for cut in done(&plan.id, &[]) {
            let mut steps = Vec::new();
            for azimuth in (1..178).step_by(4).map(f64::from) {
                // A fiftieth of the way out is three to five millimetres.
                for out in (2..49).map(|i| f64::from(i) / 50.0) {
                    let here = cut.at(azimuth, out);
                    let beside = [cut.at(azimuth, out + 0.02), cut.at(azimuth + 2.0, out)];
                    steps.extend(beside.map(|cm| ((cm - here).abs(), azimuth, out)));
                }
            }
            let most = steps.into_iter().max_by(|a, b| a.0.total_cmp(&b.0));
            let (most, azimuth, out) = most.unwrap();
            println!("{}: {most:.2} cm at most", plan.id);
            assert_eq!(
                most > A_BLEND,
                wanted,
                "{}: neighbours differ by {most:.1} cm at azimuth {azimuth}°, {out} of the way out, and \
                 {A_BLEND} cm is a blend. Let the step go on until its line reaches nothing more, or name \
                 the earlier step in `apart`",
                plan.id
            );
        }
    }
}
