//! Lines cut where they go into hiding and where they come out.

use crate::geometry::Vec3;

/// How often the way between a seen and a hidden place is halved to find the edge.
const HALVINGS: usize = 5;

/// A line in pieces that are seen (`true`) or hidden all along.
pub(super) fn runs(line: &[Vec3], hides: &dyn Fn(Vec3) -> bool) -> Vec<(bool, Vec<Vec3>)> {
    let mut runs: Vec<(bool, Vec<Vec3>)> = Vec::new();
    let mut before: Option<(Vec3, bool)> = None;
    for &p in line {
        let seen = !hides(p);
        match before {
            Some((from, was)) if was != seen => {
                let edge = edge(from, p, was, hides);
                if let Some((_, run)) = runs.last_mut() {
                    run.push(edge);
                }
                runs.push((seen, vec![edge, p]));
            }
            Some(_) => {
                if let Some((_, run)) = runs.last_mut() {
                    run.push(p);
                }
            }
            None => runs.push((seen, vec![p])),
        }
        before = Some((p, seen));
    }
    runs.retain(|(_, run)| run.len() > 1);
    runs
}

/// What is seen of a closed line, in one piece.
pub(super) fn visible(line: &[Vec3], hides: &dyn Fn(Vec3) -> bool) -> Vec<Vec3> {
    let mut whole = line.to_vec();
    whole.extend(line.first());
    let seen = runs(&whole, hides).into_iter().filter(|(seen, _)| *seen);
    seen.flat_map(|(_, run)| run).collect()
}

/// Where between two places seeing ends or begins; `was` tells whether `from` is seen.
fn edge(mut from: Vec3, mut to: Vec3, was: bool, hides: &dyn Fn(Vec3) -> bool) -> Vec3 {
    for _ in 0..HALVINGS {
        let middle = from.midpoint(to);
        if hides(middle) != was {
            from = middle;
        } else {
            to = middle;
        }
    }
    from.midpoint(to)
}
