//! What the app says, in the language in force.
//!
//! Every text of ours stands in the code once, in British English, inside [`tr()`] (or in [`noted`] where a
//! table is made before a language is known, and then in [`tr()`] where it is shown). Another language is a
//! catalogue, a `.po` file of GNU gettext's format in `public/words/`, which takes the English text as its
//! key; a text that it lacks is shown in English. How American words come from British ones is
//! `measure::said`'s. This room depends on nothing of ours.

mod values;

use polib::po_file::parse_from_reader;
use std::borrow::Cow;
use std::cell::Cell;
use std::collections::HashMap;
pub(crate) use values::tr;

/// What parts a context from its text in a key, as in gettext's own files.
const OF: char = '\u{4}';

/// Every text of a language, by its English one: one form, or that of one and that of many.
type Texts = HashMap<String, Vec<String>>;

thread_local! {
    /// The catalogue in force. None is English. Every thread has its own, so that tests stay apart.
    static CATALOGUE: Cell<Option<&'static Texts>> = const { Cell::new(None) };
}

/// A catalogue that can't be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("These words can't be read: {0}")]
pub struct Unreadable(String);

/// Says everything in a catalogue's language from here on, on this thread: the text of a `.po` file. What
/// was said before stays as it was, so this comes before the first screen.
///
/// # Errors
/// [`Unreadable`] when it is no such file; the language stays as it was.
pub fn speak(catalogue: &str) -> Result<(), Unreadable> {
    if !is_sound(catalogue) {
        return Err(Unreadable("not the lines of a catalogue".to_owned()));
    }
    let read = parse_from_reader(catalogue.as_bytes());
    let read = read.map_err(|why| Unreadable(why.to_string()))?;
    if read.is_empty() {
        return Err(Unreadable("nothing in it".to_owned()));
    }
    let forms = |message: &dyn polib::message::MessageView| match message.msgstr_plural() {
        Ok(forms) => forms.clone(),
        Err(_) => message.msgstr().into_iter().map(str::to_owned).collect(),
    };
    let said = read.messages().map(|message| {
        let key = key(message.msgid(), message.msgctxt());
        (key.into_owned(), forms(message))
    });
    // It is asked for as long as the page lives.
    CATALOGUE.set(Some(Box::leak(Box::new(said.collect()))));
    Ok(())
}

/// Whether a text has but lines that a catalogue has: the reader panics on others, and a network that
/// wants to be paid first answers any address with a page of its own.
fn is_sound(catalogue: &str) -> bool {
    let mut begun = false;
    catalogue.lines().all(|line| {
        let part = match line.split_once(' ') {
            Some((name, part)) if name.starts_with("msg") => {
                begun = true;
                part
            }
            _ if line.is_empty() || line.starts_with('#') => return begun || line != "#",
            _ if begun => line,
            _ => return false,
        };
        part.len() > 1 && part.starts_with('"') && part.ends_with('"')
    })
}

fn key<'a>(text: &'a str, context: Option<&str>) -> Cow<'a, str> {
    match context {
        Some(context) => Cow::Owned(format!("{context}{OF}{text}")),
        None => Cow::Borrowed(text),
    }
}

/// Says everything in English again, on this thread.
pub fn speak_english() {
    CATALOGUE.set(None);
}

/// Whether another language than English is in force.
pub fn is_foreign() -> bool {
    CATALOGUE.get().is_some()
}

/// A text of ours in the language in force; one that the catalogue lacks as it is.
///
/// ```
/// use tautline::words::{speak, speak_english, tr};
/// let head = "msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n\n";
/// speak(&format!("{head}msgid \"Nape\"\nmsgstr \"Nuca\"\n"))?;
/// assert_eq!(tr("Nape"), "Nuca");
/// assert_eq!(tr("Crown"), "Crown");
/// speak_english();
/// assert_eq!(tr("Nape"), "Nape");
/// # Ok::<(), tautline::words::Unreadable>(())
/// ```
pub fn tr(text: &str) -> &str {
    found(text, None)
}

/// A text of ours that means several things in English: `context` tells which.
pub fn tr_in<'a>(context: &'a str, text: &'a str) -> &'a str {
    found(text, Some(context))
}

/// Marks a text for the catalogue where no language is known yet: it is given back as it is.
pub const fn noted(text: &'static str) -> &'static str {
    text
}

/// A number as its digits were written in English, with the decimal mark of the language in force.
pub fn decimal(number: String) -> String {
    match tr_in("decimal mark", ".") {
        "." => number,
        mark => number.replace('.', mark),
    }
}

/// A text as it stands at the beginning of a sentence.
pub fn first_up(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

/// A text as it goes on within a sentence.
pub fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_lowercase().to_string());
    first.unwrap_or_default() + letters.as_str()
}

fn found<'a>(text: &'a str, context: Option<&str>) -> &'a str {
    form(text, context, 0).unwrap_or(text)
}

/// A form of a text in the catalogue in force; none if it lacks it.
fn form(text: &str, context: Option<&str>, nth: usize) -> Option<&'static str> {
    let forms = CATALOGUE.get()?.get(key(text, context).as_ref())?;
    let said = forms.get(nth).or_else(|| forms.last())?;
    (!said.is_empty()).then_some(said.as_str())
}

/// The text for a number: one and many, as in English and Spanish. A language with other forms needs its
/// rule here.
pub(crate) fn form_for<'a>(
    n: impl TryInto<u64>,
    one: &'a str,
    many: &'a str,
    context: Option<&str>,
) -> &'a str {
    let single = n.try_into().is_ok_and(|n| n == 1);
    let own = if single { one } else { many };
    form(one, context, usize::from(!single)).unwrap_or(own)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_chooses_its_form_and_values_find_their_places() {
        let cuts = |n: u32| tr!("one cut" | "{n} cuts" % n);
        assert_eq!([0, 1, 2].map(cuts), ["0 cuts", "one cut", "2 cuts"]);
        let catalogue = [
            "msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n",
            "msgid \"one cut\"\nmsgid_plural \"{n} cuts\"\nmsgstr[0] \"un corte\"\nmsgstr[1] \"{n} cortes\"\n",
            "msgid \"{} of {all}\"\nmsgstr \"de {all}, {}\"\n",
            "msgctxt \"of hair\"\nmsgid \"Fine\"\nmsgstr \"Fino\"\n",
        ];
        speak(&catalogue.join("\n")).unwrap();
        assert_eq!(
            [0, 1, 2, 11].map(cuts),
            ["0 cortes", "un corte", "2 cortes", "11 cortes"]
        );
        assert_eq!(tr!("{} of {all}", 2, all = 5), "de 5, 2");
        assert_eq!([tr_in("of hair", "Fine"), tr("Fine")], ["Fino", "Fine"]);
        speak_english();
        assert_eq!(cuts(2), "2 cuts");
    }
}
