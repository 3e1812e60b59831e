//! Geometry against things this project did not write: closed forms, Karney's geodesics, and the
//! exact polyhedral geodesic on a convex hull.

use geographiclib_rs::{DirectGeodesic, Geodesic, InverseGeodesic};
use proptest::prelude::*;
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
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

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
