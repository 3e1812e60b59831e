//! Who is expected, and whose card is up for a look.

use super::list::row;
use crate::book::{CardLine, CardOrder, sort_cards};
use crate::measure::Day;
use crate::words::tr;
use leptos::prelude::*;

/// Who is expected back within so many days is named. Judgement: the week.
const WEEK: i64 = 7;

/// Who is expected within the week, and who has not been here for long.
#[component]
pub fn Due(lines: Vec<CardLine>, months: u32, today: String) -> impl IntoView {
    let today = Day::read(&today);
    let of = |is: &dyn Fn(&CardLine, Day) -> bool, order| {
        let is = |line: &&CardLine| today.is_some_and(|today| is(line, today));
        let mut due: Vec<CardLine> = lines.iter().filter(is).cloned().collect();
        sort_cards(&mut due, order);
        due
    };
    let expected = of(
        &|line, today| line.is_expected(today, WEEK) && !line.is_long_gone(today, months),
        CardOrder::Return,
    );
    let gone = of(
        &|line, today| line.is_long_gone(today, months),
        CardOrder::LastVisit,
    );
    let group = |title: String, said: &'static str, lines: Vec<CardLine>| {
        (!lines.is_empty()).then(|| {
            view! {
                <details class="group">
                    <summary>{title}<span class="soft">{lines.len()}</span></summary>
                    <p class="soft">{said}</p>
                    <ul class="cuts">{lines.iter().map(row).collect_view()}</ul>
                </details>
            }
        })
    };
    view! {
        {group(
            tr("Expected within a week").to_owned(),
            tr("By the day agreed at the last visit; also who has not come since."),
            expected,
        )}
        {group(
            tr!("Not here for 1 month" | "Not here for {n} months" % months),
            tr("Keep a card only as long as it is needed. Open each, and keep it or delete it. How long it is waited stands in the settings."),
            gone,
        )}
    }
}
