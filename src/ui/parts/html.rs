//! A page for paper as text: nothing on it is pressed or follows anything, and text is far less code to
//! download than a view.

/// HTML in the making.
#[derive(Default)]
pub struct Html(String);

impl Html {
    /// Our own marks, or a picture of our own making.
    pub fn raw(&mut self, marks: &str) {
        self.0.push_str(marks);
    }

    /// Words, which may have been typed: none of their letters is a mark.
    pub fn text(&mut self, words: &str) {
        for letter in words.chars() {
            match letter {
                '&' => self.raw("&amp;"),
                '<' => self.raw("&lt;"),
                '>' => self.raw("&gt;"),
                '"' => self.raw("&quot;"),
                letter => self.0.push(letter),
            }
        }
    }

    /// Words between two marks.
    pub fn within(&mut self, open: &str, words: &str, close: &str) {
        self.raw(open);
        self.text(words);
        self.raw(close);
    }

    /// A line of a description list, if there is anything to say.
    pub fn line(&mut self, name: &str, words: &str) {
        if !words.is_empty() {
            self.within("<div><dt>", name, "</dt>");
            self.within("<dd>", words, "</dd></div>");
        }
    }

    /// The finished text.
    pub fn done(self) -> String {
        self.0
    }
}
