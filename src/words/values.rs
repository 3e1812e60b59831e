//! Texts with values in them.

/// `tr!("{} of {all} cuts", n, all = 5)`: a text with values in it, in the language in force. In another
/// language the values may stand in another order. `tr!("one cut" | "{n} cuts" % n)` follows a number, and
/// `tr!("of hair" => "{} off", by)` tells which of its meanings is meant.
macro_rules! tr {
    ($context:literal => $one:literal | $many:literal % $n:expr $(, $($values:tt)*)?) => {{
        let n = $n;
        let text = $crate::words::form_for(n, $one, $many, Some($context));
        ::tr::runtime_format!(text, $($($values)*,)? n = n)
    }};
    ($one:literal | $many:literal % $n:expr $(, $($values:tt)*)?) => {{
        let n = $n;
        let text = $crate::words::form_for(n, $one, $many, None);
        ::tr::runtime_format!(text, $($($values)*,)? n = n)
    }};
    ($context:literal => $text:literal $(, $($values:tt)*)?) => {
        ::tr::runtime_format!($crate::words::tr_in($context, $text), $($($values)*)?)
    };
    ($text:literal $(, $($values:tt)*)?) => {
        ::tr::runtime_format!($crate::words::tr($text), $($($values)*)?)
    };
}
pub(crate) use tr;
