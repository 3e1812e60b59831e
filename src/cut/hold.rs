//! Where a cutting line lies in space: what guides it, how the hair is held, how the fingers lie.

use super::fold::CutError;
use super::guide::{Guide, Setting};
use super::line::{CuttingLine, Following, OnHead};
use super::pose::Stand;
use crate::geometry::{Target, TautError, Vec3, bracketed, walk};
use crate::head::{Landmark, Side};
use crate::plan::{
    Carried, Cut, Elevation, Facing, Fall, FallLine, Fingers, Held, Over, Plane, Rule, Section,
    Station, Travel,
};
use crate::words::tr;

/// Half of the line that the fingers of one hand make when they slide once along it, in cm.
/// Judgement.
const HALF_LINE: f64 = 4.0;
/// How near to the head a line may stand, in cm: the thickness of a comb.
const STAND_OFF: f64 = 0.3;
/// Share of the way out at which a parting's line is centred.
const MIDDLE: f64 = 0.55;
/// Places along a section at which a line that follows the head is laid.
const ALONG: usize = 9;
/// Pieces in which a straight line is told of along a section: how far off it stands changes fast where
/// hair held out fans.
const STRAIGHT: usize = 32;
/// How exactly a line is laid, cm.
const EXACT: f64 = 1e-5;
/// Further off the guide's length than this, a line was not laid by it, cm.
const JUMP: f64 = 1e-2;

/// How far one step is moved from what the plan says: by a hand that drifts, or to try what it does.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Nudge {
    /// Degrees that hair is held higher.
    pub elevation: f64,
    /// Cm that the hold point lies further out, or lower where hair falls.
    pub out: f64,
    /// Cm that the guide is left longer; where hair falls, that the line lies lower; for a trim, that
    /// less comes off; for a taper, that the comb stands further off.
    pub longer: f64,
}

/// A line that was laid.
pub(super) struct Laid {
    pub line: CuttingLine,
    /// How long the guide is by which it stands, cm; none where hair falls or is trimmed.
    pub guide: Option<f64>,
}

impl Laid {
    fn by(guide: &Guide, hair: &OnHead, line: CuttingLine) -> Self {
        Self {
            line,
            guide: Some(guide.cut_at(hair)),
        }
    }

    fn alone(line: CuttingLine) -> Self {
        Self { line, guide: None }
    }
}

/// What the section before left for the next one of a travelling guide.
pub(super) struct Carry {
    /// The guide's length at even shares along the near edge, as first laid.
    first: Vec<f64>,
}

impl Setting<'_> {
    /// The cutting line of a section; none when the step cuts nothing. `first` is the first section
    /// of the step on its side; `carry` passes from one section to the next.
    pub fn line(
        &self,
        held: &Held,
        first: &Section,
        section: &Section,
        carry: &mut Option<Carry>,
    ) -> Result<Option<Laid>, CutError> {
        Ok(Some(match held {
            Held::Check => return Ok(None),
            Held::Fall(fall) => Laid::alone(self.fall(fall, first.side)?),
            Held::Stationary(cut) => self.stationary(cut, first)?,
            Held::Travelling(travel) => self.travelling(travel, section, carry)?,
            Held::Plane(plane) => self.plane(plane, first)?,
            Held::Trim(trim) => {
                let off = self.choices.cm(self.plan, &trim.off)?;
                Laid::alone(CuttingLine::Off((off - self.nudge.longer).max(0.0)))
            }
            Held::Taper(taper) => {
                // The comb goes on as far off as it stood: at the hairline it may reach the skin.
                let more = self.nudge.longer + self.nudge.out + self.really;
                Laid::alone(CuttingLine::Taper {
                    from: self.choices.cm(self.plan, &taper.hairline)? + more,
                    rise: taper.rise,
                    up_to: self.choices.cm(self.plan, &taper.up_to)? + more,
                })
            }
        }))
    }

    fn fall(&self, fall: &Fall, side: Side) -> Result<CuttingLine, CutError> {
        let landmark = self.choices.landmark(self.plan, &fall.to)?;
        let below = self.choices.cm(self.plan, &fall.below)?;
        let down = below + self.nudge.out + self.nudge.longer + self.really;
        let through = self.pose.landmark(self.head, landmark, side) - self.pose.up * down;
        let normal = self.pose.up;
        Ok(match fall.line {
            FallLine::Place => CuttingLine::Fall(Target::Point(through)),
            FallLine::Level => CuttingLine::Fall(Target::Plane { through, normal }),
            FallLine::Sloping(degrees) => self.sloping(through, Vec3::Y, degrees),
            FallLine::Aside(degrees) => {
                let parting = self.choices.parting(self.plan).azimuth();
                let away = match side {
                    Side::Centre if parting == 0.0 => 0.0,
                    Side::Centre => -parting.signum(),
                    side => side.sign(),
                };
                // The level of the landmark is kept at the parting.
                let x = self.head.meridian(parting).at(1.0).x;
                let through = Vec3::new(x, through.y, through.z);
                self.sloping(through, Vec3::X, degrees * away)
            }
        })
    }

    /// A line so many degrees lower towards a level direction, through a place.
    fn sloping(&self, through: Vec3, lower: Vec3, degrees: f64) -> CuttingLine {
        let up = self.pose.up;
        let slope = degrees.clamp(-60.0, 60.0).to_radians();
        let lower = (lower - up * lower.dot(up)).normalize_or(lower);
        // No hair hangs further from the middle than this, cm.
        let reach = 30.0;
        CuttingLine::Sloping {
            level: Target::Plane {
                through: through - up * (reach * slope.tan().abs()),
                normal: up,
            },
            through,
            normal: up * slope.cos() + lower * slope.sin(),
            up,
        }
    }

    fn stationary(&self, cut: &Cut, first: &Section) -> Result<Laid, CutError> {
        if cut.station == Station::AlongFirst {
            let own = Travel {
                elevation: cut.elevation,
                over: cut.over,
                fingers: cut.fingers,
                guide: Carried::default(),
                length: cut.length.clone(),
            };
            return self.travelling(&own, first, &mut None);
        }
        let stand = Stand::at(self.head, self.station(cut.station, first), &self.pose);
        let out = self.held(&stand, cut.elevation, cut.over, first.side);
        let along = self.along(&stand, out, stand.down, cut.fingers);
        let mut guide = self.guide(&cut.length, first)?;
        if matches!(cut.length, Rule::Length(_)) {
            // Said of the hair that grows where the guide stands.
            guide.root = stand.base;
        }
        let line = |off: f64| match cut.fingers {
            Fingers::Rounded => self.rounded(cut, &stand, first.side, off),
            _ => {
                let middle = stand.base + out * off;
                CuttingLine::Straight(Target::Segment(
                    middle - along * HALF_LINE,
                    middle + along * HALF_LINE,
                ))
            }
        };
        let off = self.off(&guide, stand.base, &line)?;
        Ok(Laid::by(
            &guide,
            &self.lengths.hair,
            line(off + self.nudge.out),
        ))
    }

    /// A stationary line bent with the round of the head, in four pieces.
    fn rounded(&self, cut: &Cut, stand: &Stand, side: Side, off: f64) -> CuttingLine {
        let points: Vec<Vec3> = (-2..=2)
            .map(|i| {
                let along = HALF_LINE * f64::from(i) / 2.0;
                let heading = stand.down * along.signum();
                let base = walk(self.head.skull(), stand.base, heading, along.abs()).point;
                let there = Stand::at(self.head, base, &self.pose);
                base + self.held(&there, cut.elevation, cut.over, side) * off
            })
            .collect();
        CuttingLine::Bent(
            points
                .windows(2)
                .map(|pair| Target::Segment(pair[0], pair[1]))
                .collect(),
        )
    }

    fn travelling(
        &self,
        travel: &Travel,
        section: &Section,
        carry: &mut Option<Carry>,
    ) -> Result<Laid, CutError> {
        let share = |k: usize| k as f64 / (ALONG - 1) as f64;
        let edge = section.patch.row(self.head, 0.0);
        let near: Vec<Vec3> = (0..ALONG)
            .map(|k| {
                let there = edge.at(self.head, share(k));
                // An edge that is a single point has no row.
                there.unwrap_or_else(|| section.patch.at(self.head, 0.0, share(k)))
            })
            .collect();
        let lengths: Vec<f64> = match (carry.as_ref(), travel.guide) {
            (None, _) => self.first_guide(&travel.length, section, ALONG)?,
            (Some(carry), Carried::First) => carry.first.clone(),
            (Some(_), Carried::Neighbour) => near
                .iter()
                .map(|&root| self.guiding(root))
                .collect::<Result<_, _>>()?,
        };
        if carry.is_none() {
            *carry = Some(Carry {
                first: lengths.clone(),
            });
        }
        let middle = section.patch.spine(self.head);
        let guide = |k: usize| Guide {
            root: near[k],
            length: lengths[k],
            advice: tr("Leave the first guide longer."),
        };
        let middle_guide = guide(ALONG / 2);
        let mut line = Following {
            row: middle.clone(),
            off: Vec::new(),
            elevation: self.drifted(travel.elevation),
            over: travel.over,
            side: section.side,
            pose: self.pose,
        };
        let held = |along: f64| {
            let base = middle.at(self.head, along).unwrap_or(near[0]);
            (base, line.direction(self.head, base))
        };
        if matches!(travel.fingers, Fingers::ParallelToHead | Fingers::Rounded) {
            let mut offs: Vec<(f64, f64)> = Vec::new();
            for (k, near) in near.iter().enumerate() {
                // Abreast of the guide, as the line is asked about any root.
                let along = middle.share(*near);
                let (base, out) = held(along);
                let line = |off: f64| CuttingLine::Straight(Target::Point(base + out * off));
                let off = self.off(&guide(k), base, &line)? + self.nudge.out;
                let place = offs.partition_point(|(before, _)| *before <= along);
                offs.insert(place, (along, off));
            }
            line.off = offs;
            return Ok(Laid::by(
                &middle_guide,
                &self.lengths.hair,
                CuttingLine::Following(line),
            ));
        }
        // One straight line; hair is held straight out to it and meets it where it does.
        let (base, out) = held(middle.share(near[ALONG / 2]));
        let at = |off: f64| CuttingLine::Straight(Target::Point(base + out * off));
        let off = self.off(&middle_guide, base, &at)? + self.nudge.out;
        let stand = Stand::at(self.head, base, &self.pose);
        let [inner, outer] = [0.25, 0.75].map(|along| held(along).0);
        let down = (outer - inner).try_normalize().unwrap_or(stand.down);
        let fingers = self.along(&stand, out, down, travel.fingers);
        // Beyond the section's own ends the line may run where it likes.
        let own = section.patch.row(self.head, 0.5);
        let ends = [own.points().first(), own.points().last()];
        let ends = ends.map(|end| end.map_or(0.5, |p| middle.share(*p)));
        let off = (0..=STRAIGHT)
            .map(|k| {
                let share = k as f64 / STRAIGHT as f64;
                let (from, out_there) = held(share);
                let meets = meeting((from, out_there), (base + out * off, fingers)).unwrap_or(off);
                if meets < STAND_OFF && (ends[0]..=ends[1]).contains(&share) {
                    return Err(middle_guide.too_short(meets));
                }
                Ok((share, meets.max(STAND_OFF)))
            })
            .collect::<Result<Vec<_>, CutError>>()?;
        line.off = off;
        Ok(Laid::by(
            &middle_guide,
            &self.lengths.hair,
            CuttingLine::Following(line),
        ))
    }

    fn plane(&self, plane: &Plane, first: &Section) -> Result<Laid, CutError> {
        let sign = match first.side {
            Side::Right => -1.0,
            _ => 1.0,
        };
        let aside = |degrees: f64| {
            let slope = (degrees + self.nudge.elevation).to_radians();
            Vec3::new(sign * slope.cos(), 0.0, slope.sin())
        };
        let tipped = |level: Vec3| {
            let slope = self.nudge.elevation.to_radians();
            level * slope.cos() + Vec3::Z * slope.sin()
        };
        let facing = match plane.facing {
            Facing::Side => aside(0.0),
            Facing::Slope(degrees) => aside(degrees.clamp(0.0, 90.0)),
            Facing::Top => Vec3::Z,
            Facing::Back => tipped(Vec3::NEG_Y),
            Facing::Front => tipped(Vec3::Y),
        };
        // Walls and floors are the room's.
        let normal = self.pose.of_room(facing);
        let touch = self.touching(normal);
        let mut guide = self.guide(&plane.length, first)?;
        if matches!(plane.length, Rule::Length(_)) {
            // Said of where the head comes nearest to the plane.
            guide.root = touch;
        }
        let line = |off: f64| {
            CuttingLine::Straight(Target::Plane {
                through: touch + normal * off,
                normal,
            })
        };
        let off = self.off(&guide, touch, &line)?;
        Ok(Laid::by(
            &guide,
            &self.lengths.hair,
            line(off + self.nudge.out),
        ))
    }

    /// How far off the line must stand from `base` for the guide's hair to just reach it, cm.
    fn off(
        &self,
        guide: &Guide,
        base: Vec3,
        line: &impl Fn(f64) -> CuttingLine,
    ) -> Result<f64, CutError> {
        let over = |off: f64| {
            line(off)
                .bare(self.head, &self.lengths.hair, guide.root, guide.length)
                .map_or(-guide.length, |reach| reach.length - guide.length)
        };
        // The line can stand no further off than the guide hair is long, but for where it grows.
        let furthest = guide.length.max(STAND_OFF) + guide.root.distance(base) + 1.0;
        // A line that leans passes nearer to the guide than it stands off.
        let furthest = furthest * 2.0;
        // A straight line close to a round head may run through it; then it stands a little further off.
        let mut near = (0..4).map(|i| STAND_OFF * 2.0_f64.powi(i));
        let nearest = near.find(|&off| over(off) <= 0.0).unwrap_or(STAND_OFF);
        let off = bracketed((nearest, furthest), EXACT, over)
            .map_err(|_| guide.too_short(guide.length))?;
        // Where the way out leads through the head, the length jumps past the guide's.
        if over(off).abs() > JUMP {
            return Err(TautError::TargetInside.into());
        }
        Ok(off)
    }

    fn drifted(&self, elevation: Elevation) -> Elevation {
        Elevation {
            degrees: (elevation.degrees + self.nudge.elevation).clamp(0.0, 180.0),
            ..elevation
        }
    }

    fn held(&self, stand: &Stand, elevation: Elevation, over: Over, side: Side) -> Vec3 {
        let place = |landmark: Landmark| self.pose.landmark(self.head, landmark, side);
        stand.held(self.drifted(elevation), over, side, place)
    }

    /// The direction of the fingers: `down` is that of the parting below them.
    fn along(&self, stand: &Stand, out: Vec3, down: Vec3, fingers: Fingers) -> Vec3 {
        match fingers {
            Fingers::ParallelToHead | Fingers::Rounded => down,
            Fingers::Level => self
                .pose
                .up
                .cross(out)
                .try_normalize()
                .unwrap_or(stand.across()),
            Fingers::Plumb => {
                let up = self.pose.up;
                (up - out * up.dot(out)).try_normalize().unwrap_or(down)
            }
            Fingers::Leaning(degrees) => {
                let lean = degrees.clamp(-80.0, 80.0).to_radians();
                (out * lean.sin() - down * lean.cos()).normalize_or(down)
            }
        }
    }

    fn station(&self, station: Station, first: &Section) -> Vec3 {
        let side = first.side;
        match station {
            Station::Parting => {
                let parting = self.choices.parting(self.plan).azimuth();
                let meridian = self.head.meridian(parting);
                self.settled(meridian.at(MIDDLE))
            }
            Station::EarToEar => {
                let ridge = self.head.landmark(Landmark::ParietalRidge, side);
                let out = self.head.spot(ridge).out;
                let azimuth = Landmark::AboveEar.hairline_azimuth().unwrap_or_default();
                self.settled(self.head.meridian(azimuth * side.sign()).at(out))
            }
            Station::FirstSection | Station::AlongFirst => first.patch.at(self.head, 0.5, 0.5),
            Station::At(landmark) => self.settled(self.head.landmark(landmark, side)),
        }
    }
}

/// How far along the first line, a place and a unit direction, it comes nearest to the second; none
/// where they run side by side.
fn meeting((p, u): (Vec3, Vec3), (q, v): (Vec3, Vec3)) -> Option<f64> {
    let (across, apart) = (u.dot(v), q - p);
    let square = 1.0 - across * across;
    (square > 1e-3).then(|| (apart.dot(u) - apart.dot(v) * across) / square)
}
