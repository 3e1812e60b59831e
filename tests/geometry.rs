//! Geometry against things this project did not write: closed forms, Karney's geodesics, and the
//! exact polyhedral geodesic on a convex hull.

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use tautline::geometry::{Convex, Egg, Ellipsoid, Target, Vec3, taut, trace, walk};

fn direction() -> impl Strategy<Value = Vec3> {
    (-1.0..1.0_f64, 0.0..std::f64::consts::TAU).prop_map(|(z, turn)| {
        let level = (1.0 - z * z).sqrt();
        Vec3::new(level * turn.cos(), level * turn.sin(), z)
    })
}

/// Taut length round a sphere to a point at distance d: the closed form of the circle and its
/// tangent (elementary; Euclid III.36 gives the tangent's length).
fn on_sphere(radius: f64, angle: f64, d: f64) -> f64 {
    let sees = (radius / d).acos();
    if angle <= sees {
        (d * d + radius * radius - 2.0 * d * radius * angle.cos()).sqrt()
    } else {
        radius * (angle - sees) + (d * d - radius * radius).sqrt()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, rng_seed: RngSeed::Fixed(20261125), ..ProptestConfig::default() })]

    #[test]
    fn a_sphere_gives_the_closed_form(
        radius in 5.0..12.0_f64, root in direction(), hold in direction(), out in 0.01..50.0_f64,
    ) {
        let d = radius + out;
        let path = taut(&Ellipsoid::sphere(radius), root * radius, &Target::Point(hold * d)).unwrap();
        let known = on_sphere(radius, root.angle_between(hold), d);
        prop_assert!((path.length - known).abs() < 1e-3, "{} against {known}", path.length);
        prop_assert_eq!(path.wrapped > 0.0, root.angle_between(hold) > (radius / d).acos());
    }

    /// A level line below a ball: down to the side, then plumb. Closed form: R(π/2 − latitude) on
    /// the upper half, then the drop.
    #[test]
    fn a_level_below_a_sphere_is_reached_plumb(root in direction(), drop in 0.0..40.0_f64) {
        let radius = 9.0;
        let level = -radius - drop;
        let path = taut(&Ellipsoid::sphere(radius), root * radius, &Target::level(level)).unwrap();
        let known = if root.z > 0.0 { radius * root.z.asin() - level } else { radius * root.z - level };
        prop_assert!((path.length - known).abs() < 1e-3, "{} against {known}", path.length);
    }

    /// A line parallel to the x axis outside a cylinder-like direction of a ball: the path must meet
    /// the line at right angles or at its end, and be no longer than to any sampled point of it.
    #[test]
    fn a_line_is_met_where_it_is_nearest(
        root in direction(), a in direction(), b in direction(), out in 1.0..20.0_f64,
    ) {
        let body = Egg::new(7.4, 9.5, (8.5, 12.5), 0.3, 0.9);
        let root = body.along(root);
        let middle = body.along(a) + body.normal(body.along(a)) * out;
        let across = body.normal(body.along(a)).cross(b);
        prop_assume!(across.length() > 0.2);
        let half = across.normalize() * 4.0;
        let line = Target::Segment(middle - half, middle + half);
        let path = taut(&body, root, &line).unwrap();
        for i in 0..=16 {
            let point = middle + half * (f64::from(i) / 8.0 - 1.0);
            let other = taut(&body, root, &Target::Point(point)).unwrap();
            prop_assert!(path.length <= other.length + 2e-3, "{} over {}", path.length, other.length);
        }
    }

    /// No point of a traced path lies inside, and its polyline is as long as the path says.
    #[test]
    fn a_traced_path_stays_outside(root in direction(), hold in direction(), out in 0.5..30.0_f64) {
        let body = Egg::new(7.4, 9.5, (8.5, 12.5), 0.3, 0.9);
        let root = body.along(root);
        let base = body.along(hold);
        let path = taut(&body, root, &Target::Point(base + body.normal(base) * out)).unwrap();
        let points = trace(&body, root, &path, 0.2);
        let mut length = 0.0;
        for pair in points.windows(2) {
            length += pair[0].distance(pair[1]);
            prop_assert!(body.height(pair[1]) > -1e-4);
        }
        prop_assert!((length - path.length).abs() < 5e-3, "{length} against {}", path.length);
    }
}

/// The point of a spheroid (semi-axes a, a, b) whose normal has this geodetic latitude and longitude,
/// in degrees.
fn geodetic(a: f64, b: f64, latitude: f64, longitude: f64) -> Vec3 {
    let (lat, lon) = (latitude.to_radians(), longitude.to_radians());
    let n = a * a / (a * a * lat.cos().powi(2) + b * b * lat.sin().powi(2)).sqrt();
    Vec3::new(
        n * lat.cos() * lon.cos(),
        n * lat.cos() * lon.sin(),
        n * b * b / (a * a) * lat.sin(),
    )
}

/// Karney, *Algorithms for geodesics*, J. Geod. 87 (2013) 43–55, through `geographiclib-rs`: where a
/// geodesic on a spheroid of head size ends.
#[test]
fn spheroid_geodesics_end_where_karneys_do() {
    for (a, b) in [(8.0, 9.5), (9.5, 8.0), (9.0, 9.0), (7.4, 11.0)] {
        let earth = Geodesic::new(a, (a - b) / a);
        let body = Ellipsoid::new(a, a, b);
        for latitude in [-60.0_f64, -20.0, 5.0, 45.0, 80.0] {
            for azimuth in [0.0_f64, 35.0, 90.0, 140.0, -75.0] {
                let (lat2, lon2, _azi2): (f64, f64, f64) =
                    earth.direct(latitude, 10.0, azimuth, 17.0);
                let at = |lat, lon| geodetic(a, b, lat, lon);
                let start = at(latitude, 10.0);
                let (lat, lon) = (latitude.to_radians(), 10.0_f64.to_radians());
                let north = Vec3::new(-lat.sin() * lon.cos(), -lat.sin() * lon.sin(), lat.cos());
                let east = Vec3::new(-lon.sin(), lon.cos(), 0.0);
                let turn = azimuth.to_radians();
                let end = walk(&body, start, north * turn.cos() + east * turn.sin(), 17.0);
                let off = end.point.distance(at(lat2, lon2));
                assert!(
                    off < 1e-4,
                    "a {a} b {b} from {latitude} at {azimuth}: {off} cm off"
                );
            }
        }
    }
}

/// The same source, the inverse problem: a hold point that touches the head leaves only the
/// geodesic between two places on it.
#[test]
fn spheroid_distances_are_karneys() {
    for (a, b) in [(8.0, 9.5), (9.5, 8.0)] {
        let earth = Geodesic::new(a, (a - b) / a);
        let body = Ellipsoid::new(a, a, b);
        for (lat1, lat2, lon2) in [
            (10.0, 40.0, 60.0),
            (-30.0, 55.0, 120.0),
            (0.0, 5.0, 150.0),
            (70.0, -20.0, 30.0),
        ] {
            let known: f64 = earth.inverse(lat1, 0.0, lat2, lon2);
            let at = |lat, lon| geodetic(a, b, lat, lon);
            let to = at(lat2, lon2);
            let hold = to + body.normal(to) * 1e-7;
            let path = taut(&body, at(lat1, 0.0), &Target::Point(hold)).unwrap();
            assert!(
                (path.length - known).abs() < 1e-3,
                "{} against {known}",
                path.length
            );
        }
    }
}

/// Places where rivals compete, the target all but touches, or lies straight opposite. The lengths
/// come from a separate program, kept outside this project, that walks some hundreds of headings with
/// fixed steps and takes the shortest path that meets the point.
#[test]
fn hard_places_agree_with_a_separate_program() {
    type Case = ([f64; 3], [f64; 3], [f64; 3], f64);
    let rows: [Case; 8] = [
        (
            [7.9, 10.2, 8.1],
            [0.0, 10.2, 0.0],
            [0.0, -36.1, 0.0],
            51.25058,
        ),
        (
            [8.3, 9.3, 9.4],
            [0.0, 0.0, 9.4],
            [0.0, 0.0, -36.7],
            51.56223,
        ),
        (
            [8.128967727121232, 10.025012203484218, 10.606448292577964],
            [0.5302274035673056, 8.432144340643276, 5.694767506687273],
            [1.8134250745690992, 9.325819354651465, 3.093394064049215],
            3.0472,
        ),
        (
            [9.0, 9.0, 9.0],
            [0.0, 0.0, 9.0],
            [7.79431524, 0.0, 4.50005],
            9.42478,
        ),
        (
            [9.0, 9.0, 9.0],
            [0.0, 0.0, 9.0],
            [0.0, 0.0, -9.0001],
            28.27433,
        ),
        (
            [7.714797557260458, 8.711342542822802, 10.492331022246443],
            [6.686173013736135, -3.1667259170738693, 3.5849468270604565],
            [-38.70101331465256, 13.693127990442173, -9.571691577704255],
            55.40964,
        ),
        (
            [6.887704018577101, 10.162509101291175, 8.210265549206607],
            [3.1146479123657858, 3.441391236006322, 6.774524565297864],
            [-4.0345931980766565, 0.7611446056150557, -7.017185577231576],
            22.2710,
        ),
        (
            [6.84031165362778, 8.598939870125205, 10.858627658320119],
            [2.024125168045202, 7.992146047370844, -2.3935626212941226],
            [5.3938084238275605, -4.852723385388087, 2.895510584322542],
            15.9515,
        ),
    ];
    for (axes, root, hold, known) in rows {
        let body = Ellipsoid { axes: axes.into() };
        let path = taut(&body, root.into(), &Target::Point(hold.into())).unwrap();
        assert!(
            (path.length - known).abs() < 1e-3,
            "{} against {known}",
            path.length
        );
    }
}

/// A scalp so large that it is flat to 1e-4 cm within a section.
fn flat() -> Ellipsoid {
    Ellipsoid::sphere(1e5)
}

/// The trade's figures below are common practice, worked out on a flat scalp; they have no source.
///
/// The next section, s cm above the guide, combed to the guide's tip, with the guide L₀ long and held at
/// elevation e from the head (0° lies in its fall, 90° stands off): L² = L₀² + 2 s L₀ cos e + s².
#[test]
fn the_next_section_above_a_guide_on_a_flat_scalp() {
    let body = flat();
    let guide = body.along(Vec3::Y);
    let normal = body.normal(guide);
    let up = Vec3::Z - normal * normal.z;
    let named = [
        (0.0, 2.0),
        (45.0, 1.5),
        (90.0, 0.2),
        (135.0, -1.3),
        (180.0, -2.0),
    ];
    for length in [5.0, 10.0, 20.0] {
        for s in [0.5, 2.0, 4.0] {
            for step in 0..=12 {
                let degrees = f64::from(step) * 15.0;
                let e = degrees.to_radians();
                let tip = guide + (normal * e.sin() - up * e.cos()) * length;
                let root = body.along(guide + up * s);
                let path = taut(&body, root, &Target::Point(tip)).unwrap();
                let squared: f64 = length * length + 2.0 * s * length * e.cos() + s * s;
                let known = squared.sqrt();
                assert!(
                    (path.length - known).abs() < 2e-3,
                    "{degrees}°: {} {known}",
                    path.length
                );
                if let (Some((_, more)), true) = (
                    named.iter().find(|(d, _)| *d == degrees),
                    length == 10.0 && s == 2.0,
                ) {
                    assert!((path.length - length - more).abs() < 0.05, "{degrees}°");
                }
            }
        }
    }
}

/// Over-direction by d cm to a guide that stands straight off a flat scalp: √(L₀² + d²) − L₀ longer.
#[test]
fn over_direction_on_a_flat_scalp() {
    let body = flat();
    let guide = body.along(Vec3::Y);
    for (length, named) in [
        (10.0, [0.2, 0.8, 1.7, 2.8, 4.1, 8.0]),
        (20.0, [0.1, 0.4, 0.9, 1.5, 2.4, 5.0]),
    ] {
        let tip = guide + body.normal(guide) * length;
        for (d, more) in [2.0_f64, 4.0, 6.0, 8.0, 10.0, 15.0].into_iter().zip(named) {
            let root = body.along(guide + Vec3::X * d);
            let path = taut(&body, root, &Target::Point(tip)).unwrap();
            let known = d.hypot(length) - length;
            assert!(
                (path.length - length - known).abs() < 1e-3,
                "{d}: {}",
                path.length
            );
            assert!((known - more).abs() < 0.051, "{d}: {known} is not {more}");
        }
    }
}

/// The same on a ball of 9 cm: the chord as far as the tangent, at acos(R / (R + L₀)); from there the
/// hair lies on the ball and each centimetre further adds one.
#[test]
fn over_direction_on_a_ball() {
    let (radius, length) = (9.0_f64, 10.0);
    let body = Ellipsoid::sphere(radius);
    let tip = Target::Point(Vec3::Y * (radius + length));
    let at = |angle: f64| {
        let root = Vec3::new(angle.sin(), angle.cos(), 0.0) * radius;
        taut(&body, root, &tip).unwrap().length
    };
    for (degrees, more) in [
        (30.0_f64, 2.1),
        (45.0, 4.1),
        (60.0, 6.5),
        (90.0, 11.2),
        (120.0, 15.9),
    ] {
        let longer = at(degrees.to_radians()) - length;
        assert!((longer - more).abs() < 0.051, "{degrees}: {longer}");
    }
    let tangent = (radius / (radius + length)).acos();
    for turn in [0.01, 0.3, 0.9, 1.5] {
        let angle: f64 = tangent + turn;
        let further = at(angle + 1.0 / radius) - at(angle);
        assert!((further - 1.0).abs() < 1e-4, "{turn}: {further}");
        assert!(at(tangent) - at(tangent - turn / 2.0) < radius * turn / 2.0);
    }
}

/// Square layers: a wall 6 cm off the middle of a curve of 9 cm. A root x cm off the middle lies
/// 9 − √(9² − x²) cm further from it.
#[test]
fn a_wall_before_a_ball() {
    let radius = 9.0_f64;
    let body = Ellipsoid::sphere(radius);
    let wall = Target::Plane {
        through: Vec3::Y * (radius + 6.0),
        normal: Vec3::NEG_Y,
    };
    for (x, named) in [(0.0, 6.0), (2.0, 6.2), (4.0, 6.9), (6.0, 8.3), (8.0, 10.9)] {
        let depth = (radius * radius - x * x).sqrt();
        for root in [Vec3::new(x, depth, 0.0), Vec3::new(0.0, depth, -x)] {
            let path = taut(&body, root, &wall).unwrap();
            assert!((path.length - (radius + 6.0 - depth)).abs() < 1e-9);
            assert!((path.length - named).abs() < 0.051, "{x}: {}", path.length);
        }
    }
    // From behind the widest ring the hair lies on the ball as far as the ring.
    for behind in [0.1, 0.6, 1.2] {
        let root = Vec3::new(f64::cos(behind), -f64::sin(behind), 0.0) * radius;
        let path = taut(&body, root, &wall).unwrap();
        let known = radius * behind + radius + 6.0;
        assert!(
            (path.length - known).abs() < 1e-4,
            "{behind}: {}",
            path.length
        );
    }
}
