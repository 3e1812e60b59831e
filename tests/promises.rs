//! What each built-in cut promises, measured on a small, a mean and a large surveyed head. Each promise
//! is common practice, no source, unless one is named.

mod common;

use common::{chosen, three_heads};
use tautline::cut::{
    CuttingLine, Job, LetDown, Measured, Outcome, SectionCut, Strand, cut, let_down,
};
use tautline::fall::Quarter;
use tautline::geometry::Target;
use tautline::hair::Hair;
use tautline::head::{Head, Landmark, Side, Spot};
use tautline::plan::{Choices, Plan, built_in};

/// Ends of one level: what the issue allows, cm.
const ONE_LEVEL: f64 = 0.3;
/// Targets of one length: what the issue allows, cm.
const ONE_LENGTH: f64 = 0.5;
/// Roots that are let down.
const ROOTS: usize = 500;

/// A built-in cut worked out on one head.
struct Done {
    head: Head,
    plan: Plan,
    choices: Choices,
    outcome: Outcome,
}

/// A built-in cut with these answers on the three heads.
fn done(id: &str, pairs: &[(&str, &str)]) -> Vec<Done> {
    let plan = built_in(id).unwrap();
    let of = |head: Head| {
        let choices = chosen(&plan, pairs);
        let job = Job {
            head: &head,
            hair: &Hair::default(),
            plan: &plan,
            choices: &choices,
        };
        let outcome = cut(&job, &Measured::new()).unwrap();
        Done {
            plan: plan.clone(),
            head,
            choices,
            outcome,
        }
    };
    three_heads().into_iter().map(of).collect()
}

impl Done {
    /// The sections of a step.
    fn step<'a>(&'a self, id: &'a str) -> impl Iterator<Item = &'a SectionCut> {
        self.outcome
            .sections
            .iter()
            .filter(move |s| s.key.step == id)
    }

    fn strands<'a>(&'a self, id: &'a str) -> impl Iterator<Item = &'a Strand> {
        self.step(id).flat_map(|s| &s.strands)
    }

    /// All strands of sections that cut.
    fn cut(&self) -> impl Iterator<Item = &Strand> {
        let cutting = self.outcome.sections.iter().filter(|s| s.cuts());
        cutting.flat_map(|s| &s.strands)
    }

    /// The length of the hair at a place: degrees about the high point, share of the way out.
    fn at(&self, azimuth: f64, out: f64) -> f64 {
        let root = self.head.place(Spot::at_degrees(azimuth, out));
        self.outcome.lengths.at(&self.head, root).unwrap()
    }

    /// The share of the way out at which the scalp lies at a height, cm.
    fn level_out(&self, azimuth: f64, z: f64) -> f64 {
        let (mut above, mut below) = (0.0, 1.0);
        for _ in 0..40 {
            let middle = f64::midpoint(above, below);
            if self.head.place(Spot::at_degrees(azimuth, middle)).z > z {
                above = middle;
            } else {
                below = middle;
            }
        }
        above
    }

    /// The height at which the hair of a place ends, combed down.
    fn ends(&self, azimuth: f64, out: f64) -> f64 {
        let root = self.head.place(Spot::at_degrees(azimuth, out));
        self.outcome.lengths.ends_at(&self.head, root).unwrap()
    }

    /// The length at a named point.
    fn length(&self, landmark: Landmark) -> f64 {
        let root = self.head.landmark(landmark, Side::Left);
        self.outcome.lengths.at(&self.head, root).unwrap()
    }

    fn level(&self, landmark: Landmark) -> f64 {
        self.head.landmark(landmark, Side::Centre).z
    }

    fn let_down(&self) -> LetDown {
        let job = Job {
            head: &self.head,
            hair: &Hair::default(),
            plan: &self.plan,
            choices: &self.choices,
        };
        let_down(&self.head, &self.outcome.lengths, &job.wear(), ROOTS).unwrap()
    }

    /// How far the ends of all hair that was cut lie from a level at most, cm.
    fn off_level(&self, level: f64) -> f64 {
        let ends = |s: &Strand| self.outcome.lengths.ends_at(&self.head, s.root).unwrap();
        let off = self.cut().map(|s| (ends(s) - level).abs());
        off.fold(0.0, f64::max)
    }
}

fn span(values: impl IntoIterator<Item = f64>) -> (f64, f64) {
    let start = (f64::INFINITY, f64::NEG_INFINITY);
    let wider = |(low, high): (f64, f64), v: f64| (low.min(v), high.max(v));
    values.into_iter().fold(start, wider)
}

fn rises(values: &[f64]) -> bool {
    values.windows(2).all(|pair| pair[1] > pair[0])
}

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
    for inside in ["14 cm", "18 cm", "22 cm"] {
        for cut in done("long-graduation", &[("inside", inside)]) {
            let outline = cut.level(Landmark::Collarbone) - 13.0;
            for azimuth in [180.0, 165.0, 150.0] {
                assert!((cut.ends(azimuth, 0.99) - outline).abs() < ONE_LEVEL);
            }
            let (crown, nape) = (cut.length(Landmark::Crown), cut.length(Landmark::Nape));
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
    for top in ["16 cm", "20 cm", "30 cm"] {
        for cut in done("long-layers", &[("top", top)]) {
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
            assert!(high < occipital, "{high} {occipital}");
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

/// A smooth rise from the hairline of nape and ear to the occipital bone; no shelf, no weight line (a
/// public barber bulletin of the United States marks both down).
#[test]
fn a_tapered_nape_rises_without_a_step() {
    for hairline in [0.5, 0.8, 2.0] {
        for cut in done("tapered-nape", &[("nape", &format!("{hairline} cm"))]) {
            for azimuth in [180.0_f64, 165.0, 150.0, 130.0, 115.0, 100.0, 90.0] {
                let way = cut.head.meridian(azimuth.to_radians()).hairline();
                // Every half centimetre up from the hairline, as far as the taper goes.
                let up: Vec<f64> = (0..18)
                    .map(|i| cut.at(azimuth - 0.01, 1.0 - 0.5 * f64::from(i) / way))
                    .collect();
                assert!((up[0] - hairline).abs() < 0.05, "{azimuth}: {up:.2?}");
                for pair in up.windows(2) {
                    let step = pair[1] - pair[0];
                    // Where the top takes over, at the ridge, it may differ by a blend.
                    let most = if azimuth > 110.0 { 0.3 } else { 0.5 };
                    assert!((-0.2..most).contains(&step), "{azimuth}: {up:.2?}");
                }
            }
            let occipital = cut.length(Landmark::Occipital);
            assert!((3.0..=4.01).contains(&occipital), "{occipital}");
            let back = cut.let_down().weight.sides[2].line.unwrap();
            println!("taper {hairline}: {occipital:.2} at the bone, {back:?}");
            assert!(back.sharpness < 0.3);
            let ears = [Side::Left, Side::Right].map(|side| {
                let root = cut.head.landmark(Landmark::InFrontOfEar, side);
                cut.outcome.lengths.at(&cut.head, root).unwrap()
            });
            assert!((ears[0] - ears[1]).abs() < 0.01);
        }
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

#[test]
fn a_trim_takes_the_same_off_everywhere() {
    for (text, off) in [("0.5 cm", 0.5), ("1 cm", 1.0), ("3 cm", 3.0)] {
        for before in ["chin", "chest", "22"] {
            for cut in done("trim", &[("off", text), ("before", before)]) {
                for strand in cut.cut().filter(|s| s.before > off) {
                    // A place on the edge of two zones is trimmed with the first.
                    assert!(strand.before - strand.after < off + 1e-9);
                }
                let places = [
                    (10.0, 0.8),
                    (60.0, 0.7),
                    (100.0, 0.7),
                    (150.0, 0.6),
                    (175.0, 0.9),
                ];
                let then = done_before(&cut);
                for (azimuth, out) in places {
                    let root = cut.head.place(Spot::at_degrees(azimuth, out));
                    let gone = then.at(&cut.head, root).unwrap() - cut.at(azimuth, out);
                    assert!((gone - off).abs() < 1e-9, "{azimuth} {out}: {gone}");
                }
            }
        }
    }
}

/// The hair before the first step.
fn done_before(cut: &Done) -> tautline::cut::Lengths {
    let before = cut.choices.before(&cut.plan);
    tautline::cut::Lengths::before(&cut.head, &Hair::default(), before)
}

/// How far from the middle the outer eye corner lies, cm: the eyes are together about three tenths of
/// the head's breadth to each side. Working judgement.
fn outer_eye_corner(head: &Head) -> f64 {
    0.31 * 2.0 * head.skull().half_breadth
}

/// Combed down, a fringe hangs no further out than the outer eye corners, and touches nothing else.
#[test]
fn no_fringe_is_wider_than_the_eyes() {
    for id in ["curtain-fringe", "side-swept-fringe", "straight-fringe"] {
        for cut in done(id, &[]) {
            let hangs = cut.strands("fringe").map(|s| s.path.unwrap().meets.x.abs());
            let (_, widest) = span(hangs);
            let corner = outer_eye_corner(&cut.head);
            println!("{id}: {widest:.2} of {corner:.2}");
            assert!(widest <= corner + 0.05, "{id}: {widest} {corner}");
            let then = done_before(&cut);
            for (azimuth, out) in [(45.0, 0.97), (0.0, 0.3), (90.0, 0.8), (180.0, 0.7)] {
                let root = cut.head.place(Spot::at_degrees(azimuth, out));
                assert_eq!(then.at(&cut.head, root).unwrap(), cut.at(azimuth, out));
            }
        }
    }
}

#[test]
fn a_straight_fringe_is_level() {
    for (text, lower) in [("0 cm", 0.0), ("0.5 cm", 0.5), ("3 cm", 3.0)] {
        for cut in done("straight-fringe", &[("lower", text)]) {
            let off = cut.off_level(cut.level(Landmark::Brow) - lower);
            println!("straight fringe: {off:.3} cm off");
            assert!(off < ONE_LEVEL, "{off}");
        }
    }
}

#[test]
fn a_curtain_fringe_is_shortest_in_the_middle() {
    for landmark in ["brow", "cheekbone"] {
        for cut in done("curtain-fringe", &[("landmark", landmark)]) {
            for sign in [1.0, -1.0] {
                let aside = [1.0, 6.0, 12.0, 18.0, 24.0].map(|az| az * sign);
                let lengths = aside.map(|az| cut.at(az, 0.99));
                assert!(rises(&lengths), "{lengths:?}");
                let ends = aside.map(|az| -cut.ends(az, 0.99));
                assert!(rises(&ends), "{ends:?}");
                println!("curtain: {lengths:.1?}, ends {ends:.1?}");
                assert!(ends[4] - ends[0] > 1.2);
            }
        }
    }
}

/// One slope, short at the parting and longer to the other side.
#[test]
fn a_side_swept_fringe_is_longer_to_one_side() {
    for (parting, sign) in [("left", 1.0), ("right", -1.0)] {
        for cut in done("side-swept-fringe", &[("parting", parting)]) {
            let across = [24.0, 12.0, 0.0, -12.0, -24.0].map(|az| az * sign);
            let ends = across.map(|az| -cut.ends(az, 0.99));
            assert!(rises(&ends), "{ends:?}");
            let (short, long) = (cut.at(24.0 * sign, 0.99), cut.at(-24.0 * sign, 0.99));
            println!("swept: {short:.1} to {long:.1}");
            assert!(long > short + 2.0, "{short} {long}");
        }
    }
}
