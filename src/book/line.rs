//! What a list needs of a saved cut.

use super::fold::fold;
use super::saved::SavedCut;
use crate::json::{Tree, tree};
use crate::walk::Walk;
use crate::words::tr;

/// The version of a line's text: one of another version is made anew from its document.
const VERSION: u64 = 1;
/// What a line begins with. It is no ASCII, so that on its way from the browser a line is taken over as a
/// whole; one of ASCII is looked through letter by letter first, which for a thousand takes longer than all
/// the rest.
const MARK: char = '¦';
/// So many letters of the notes are searched. Judgement.
const NOTES: usize = 200;

/// How far a cut is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    /// Nobody has chosen what is to be cut.
    Open,
    /// Chosen, and not begun.
    Planned,
    /// Begun, and not finished.
    AtTheChair,
    /// Cut to the end.
    Finished,
}

impl State {
    /// How far a cut is.
    pub fn of(cut: &SavedCut) -> Self {
        match &cut.walk {
            None if cut.is_chosen() => Self::Planned,
            None => Self::Open,
            Some(walk) if walk.finished_at.is_some() => Self::Finished,
            Some(_) => Self::AtTheChair,
        }
    }

    /// Its words on the screen.
    pub fn words(self) -> &'static str {
        match self {
            Self::Open => tr("Nothing is chosen yet"),
            Self::Planned => tr("Planned"),
            Self::AtTheChair => tr("At the chair"),
            Self::Finished => tr("Finished"),
        }
    }
}

/// What a list needs of one saved cut, so that a thousand need not be read for it. Never a private note.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The cut's id.
    pub id: String,
    /// The revision of the document that it was made from.
    pub revision: u64,
    /// How long that document is as it is kept, UTF-16 units: one that was changed by other hands shows.
    pub length: usize,
    /// What the person calls it.
    pub title: String,
    /// The id of its plan.
    pub plan: String,
    /// The name of its plan if it was changed for this cut; none for a built-in one.
    pub own: Option<String>,
    /// How far it is.
    pub state: State,
    /// Its day, as [`SavedCut::day`] has it.
    pub day: String,
    /// When it was saved last, as an ISO 8601 time.
    pub saved_at: String,
    /// The id of the client or practice head whose it is; empty if nobody's.
    pub of: String,
    /// Words to find it by.
    pub tags: Vec<String>,
    /// Whether it belongs to the invented salon.
    pub invented: bool,
    /// The day agreed for the next visit; empty if none was.
    pub return_on: String,
    /// Whether anything was measured, at the chair or after the cut.
    pub measured: bool,
    /// The beginning of the notes that the client may see, folded.
    pub notes: String,
}

impl Line {
    /// The line of a cut whose document is so long as it is kept.
    pub fn of(cut: &SavedCut, length: usize) -> Self {
        let notes: String = cut.visit.notes.chars().take(NOTES).collect();
        Self {
            id: cut.id.clone(),
            revision: cut.revision,
            length,
            title: cut.title.clone(),
            plan: cut.plan.clone(),
            own: cut.own.as_ref().map(|plan| plan.name.clone()),
            state: State::of(cut),
            day: cut.day(),
            saved_at: cut.saved_at.clone(),
            of: cut.visit.of.clone(),
            tags: cut.visit.tags.clone(),
            invented: cut.visit.invented,
            return_on: cut.visit.return_on.clone(),
            measured: measured(cut),
            notes: fold(&notes),
        }
    }

    /// The line as it is kept: a list, as that is short and read soon.
    pub fn to_text(&self) -> String {
        let text = |text: &str| Tree::from(text);
        let parts = Tree::Array(vec![
            Tree::from(VERSION),
            Tree::from(self.revision),
            Tree::from(self.length),
            text(&self.title),
            text(&self.plan),
            self.own.as_deref().map_or(Tree::Null, text),
            Tree::from(match self.state {
                State::Planned => 0_u64,
                State::AtTheChair => 1,
                State::Finished => 2,
                State::Open => 3,
            }),
            text(&self.day),
            text(&self.saved_at),
            text(&self.of),
            Tree::Array(self.tags.iter().map(|tag| text(tag)).collect()),
            Tree::from(self.invented),
            text(&self.return_on),
            Tree::from(self.measured),
            text(&self.notes),
        ]);
        format!("{MARK}{parts}")
    }

    /// A line as it was kept for the cut of this id; none if it is of another version, or is no line.
    pub fn from_text(id: &str, kept: &str) -> Option<Self> {
        let Ok(Tree::Array(parts)) = tree(kept.strip_prefix(MARK)?) else {
            return None;
        };
        let mut parts = parts.into_iter();
        let mut next = || parts.next();
        if next()?.as_u64()? != VERSION {
            return None;
        }
        Some(Self {
            id: id.to_owned(),
            revision: next()?.as_u64()?,
            length: usize::try_from(next()?.as_u64()?).ok()?,
            title: text(next()?)?,
            plan: text(next()?)?,
            own: match next()? {
                Tree::Null => None,
                own => Some(text(own)?),
            },
            state: match next()?.as_u64()? {
                0 => State::Planned,
                1 => State::AtTheChair,
                2 => State::Finished,
                3 => State::Open,
                _ => return None,
            },
            day: text(next()?)?,
            saved_at: text(next()?)?,
            of: text(next()?)?,
            tags: match next()? {
                Tree::Array(tags) => tags.into_iter().filter_map(text).collect(),
                _ => return None,
            },
            invented: next()?.as_bool()?,
            return_on: text(next()?)?,
            measured: next()?.as_bool()?,
            notes: text(next()?)?,
        })
    }
}

fn measured(cut: &SavedCut) -> bool {
    let at_the_chair = |walk: &Walk| walk.done.iter().any(|done| done.came_out_at.is_some());
    !cut.visit.measures.is_empty() || cut.walk.as_ref().is_some_and(at_the_chair)
}

fn text(tree: Tree) -> Option<String> {
    match tree {
        Tree::String(text) => Some(text),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::consult::Ask;
    use crate::plan::built_in;

    fn visit() -> SavedCut {
        let mut cut = SavedCut::new("a.b", "Zoë, “short”\n", "trim", "2026-11-26T10:00:00.000Z");
        cut.visit.of = "r1".to_owned();
        cut.visit.day = "2026-11-20".to_owned();
        cut.visit.tags = vec!["Colour".to_owned(), "wet, \"dry\"".to_owned()];
        cut.visit.notes = format!("Né {}end", "x".repeat(400));
        cut.visit.return_on = "2027-01-08".to_owned();
        cut.revision = 7;
        cut
    }

    #[test]
    fn a_line_says_what_its_cut_says_and_reads_as_it_was_written() {
        let mut cut = visit();
        let line = Line::of(&cut, 900);
        assert_eq!((line.state, line.own.as_deref()), (State::Planned, None));
        assert_eq!(line.day, "2026-11-20");
        assert!(line.notes.starts_with("ne xxx") && line.notes.len() == 200);
        assert_eq!(Line::from_text("a.b", &line.to_text()), Some(line.clone()));
        cut.unchosen = true;
        let open = Line::of(&cut, 900);
        assert_eq!(open.state, State::Open);
        assert_eq!(Line::from_text("a.b", &open.to_text()), Some(open));
        cut.own = built_in("trim").map(Box::new);
        cut.walk = Some(Walk::start("2026-11-25T10:00:00.000Z"));
        let open = Line::of(&cut, 901);
        assert_eq!(open.state, State::AtTheChair);
        assert_eq!(open.own, built_in("trim").map(|plan| plan.name));
        assert_eq!(Line::from_text("a.b", &open.to_text()), Some(open.clone()));
        cut.walk.as_mut().unwrap().finished_at = Some("t".to_owned());
        assert_eq!(Line::of(&cut, 901).state, State::Finished);
        // Small beside what it is of.
        assert!(Line::of(&visit(), 900).to_text().len() < 420);
    }

    #[test]
    fn a_private_note_is_in_no_line() {
        let mut cut = visit();
        cut.consultation.put(Ask::Note, "grumbles");
        assert!(cut.to_json().contains("grumbles"));
        assert!(!Line::of(&cut, 9).to_text().contains("grumbles"));
    }

    #[test]
    fn what_is_no_line_does_not_read() {
        let text = Line::of(&visit(), 900).to_text();
        for at in 0..text.len() {
            if text.is_char_boundary(at) {
                assert_eq!(Line::from_text("a", &text[..at]), None, "{at}");
            }
        }
        for strange in ["[2,1,1]", "{}", "[1]", "[1,\"a\"]", "[1,1,1,null]"] {
            assert_eq!(Line::from_text("a", strange), None, "{strange}");
        }
        let other = text.replace("[\"Colour\"", "7,[\"Colour\"");
        assert_eq!(Line::from_text("a", &other), None);
    }
}
