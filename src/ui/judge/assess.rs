//! The assessor's sheet: what was planned, measured and said of one cut, on one or two printed pages, with
//! room for marks by another hand.

use super::places::{signed, twin_said};
use crate::book::{
    CRITERIA, Evidence, Judgement, Period, Said, SavedCut, Standard, expected, judge,
};
use crate::cut::{Measured, Outcome};
use crate::head::Side;
use crate::measure::{Length, Unit};
use crate::ui::frame::{Stage, titled, with_cut};
use crate::ui::kept::{kept, now};
use crate::ui::parts::Html;
use crate::ui::sheet::{OnPaper, foot, heading};
use crate::ui::words;
use crate::walk::{Row, clock, compare};
use crate::words::{tr, tr_in};
use leptos::prelude::*;

/// More measured sections than this would fill the paper; those furthest off stand on it. Judgement.
const MOST_ROWS: usize = 12;

/// The sheet of one cut.
#[component]
pub fn AssessScreen() -> impl IntoView {
    titled(tr("Sheet for an assessor"));
    with_cut(|cut| {
        let id = cut.with_untracked(|cut| cut.id.clone());
        let sheet = cut.with_untracked(written);
        view! {
            <OnPaper
                id
                here=Stage::Chair
                title=tr("Sheet for an assessor")
                class="on-paper assess"
                back=("judge", tr("Back to the check"))
                sheet
            />
        }
    })
}

/// The whole sheet.
fn written(cut: &SavedCut) -> Result<String, String> {
    let kept = kept();
    let (unit, settings) = (kept.unit_now(), kept.settings_now());
    let ready = kept.ready(cut).map_err(|e| e.to_string())?;
    let planned = ready.outcome(&Measured::new()).map_err(|e| e.to_string())?;
    let walk = cut.walk.clone().unwrap_or_default();
    let followed = ready.followed(&walk).map_err(|e| e.to_string())?;
    let all = expected(&ready).map_err(|e| e.to_string())?;
    let judged = judge(&all, &cut.visit, &settings.marks);
    let facts = Evidence::of(&walk, &ready, &planned, &followed, &now());
    let mut html = Html::default();
    let named = heading(&mut html, cut, &ready.plan.name, &cut.day());
    html.raw("<dl class=\"sheet-facts\">");
    html.line(tr("Head"), &head(cut));
    html.line(tr("Time"), &time(&facts));
    html.line(tr("Sections"), &sections(&facts, unit));
    let said = judged.said(&settings.marks, unit, settings.seen);
    html.line(tr("Own mark"), &said.join(" "));
    html.raw("</dl>");
    places(&mut html, &judged, unit);
    came_out(
        &mut html,
        &planned,
        &compare(&planned, &followed, &walk),
        unit,
    );
    criteria(&mut html, cut, settings.seen);
    if !settings.seen {
        look_back(&mut html, cut);
    }
    by_hand(&mut html);
    // Where a card's name stands under Head, that is whose it is.
    let title_is_name = named && kept.name_of(cut).is_none();
    foot(
        &mut html,
        &ready.plan,
        tr(
            "A ruler on combed hair is good to 2 or 3 mm; the marks are the maker\u{2019}s own. Too short weighs more than too long, which can be put right.",
        ),
        title_is_name,
    );
    Ok(html.done())
}

/// Whose head it was; no names before the client.
fn head(cut: &SavedCut) -> String {
    let kind = words::kind(cut.shape.kind).to_lowercase();
    match kept().name_of(cut) {
        Some(name) => [name.trim(), ", ", &kind].concat(),
        None => kind,
    }
}

fn time(facts: &Evidence) -> String {
    let mut all = vec![tr!("{} of cutting", clock(facts.seconds))];
    if let Some(planned) = facts.planned {
        all.push(tr!("usually {}", clock(planned)));
    }
    if let Some(half) = facts.half {
        all.push(tr!("half of the sections after {}", clock(half)));
    }
    all.join("; ")
}

fn sections(facts: &Evidence, unit: Unit) -> String {
    let done = tr!("{} of {} done", facts.done, facts.sections);
    match &facts.largest {
        Some((key, name, cm)) => {
            let off = signed(*cm, unit);
            let side = kept().said(key.side.said());
            tr!(
                "{done}; furthest off at the chair: {name}, {side}, {off}",
                done,
                name,
                side,
                off
            )
        }
        None => done,
    }
}

/// Opens a table under a name.
fn open(html: &mut Html, name: &str, columns: &[&str]) {
    html.within(
        "<section class=\"sheet-step assess-part\"><h2>",
        name,
        "</h2>",
    );
    html.within(
        "<div class=\"sheet-table\" role=\"region\" tabindex=\"0\" aria-label=\"",
        name,
        "\"><table><thead><tr>",
    );
    for (i, column) in columns.iter().enumerate() {
        let class = if i == 0 { "" } else { " class=\"number\"" };
        html.within(&["<th scope=\"col\"", class, ">"].concat(), column, "</th>");
    }
    html.raw("</tr></thead><tbody>");
}

const END: &str = "</tbody></table></div></section>";

fn row(html: &mut Html, name: &str, cells: &[String]) {
    html.within("<tr><th scope=\"row\">", name, "</th>");
    for cell in cells {
        html.within("<td class=\"number\">", cell, "</td>");
    }
    html.raw("</tr>");
}

/// The named places that the plan cuts.
fn places(html: &mut Html, judged: &Judgement, unit: Unit) {
    let ours: Vec<_> = judged.places.iter().filter(|p| p.cut).collect();
    if ours.is_empty() {
        return;
    }
    let name = tr!("Combed taut, after the cut, in {}", unit.word());
    open(
        html,
        &name,
        &[
            tr("Place"),
            tr("Planned"),
            tr("Measured"),
            tr("Difference"),
            tr("Left against right"),
        ],
    );
    for place in ours {
        let mut name = kept().said(place.place.name());
        if place.side != Side::Centre {
            name = [&name, ", ", place.side.said()].concat();
        }
        let number =
            |length: Option<Length>| length.map_or(String::new(), |l| l.measured_number(unit));
        let off = place.deviation.map_or(String::new(), |cm| signed(cm, unit));
        let twin = place.from_twin.filter(|_| place.side == Side::Left);
        let twin = twin.and_then(|cm| twin_said(cm, unit)).unwrap_or_default();
        row(
            html,
            &name,
            &[
                number(Some(place.planned)),
                number(place.measured),
                off,
                twin,
            ],
        );
    }
    html.raw(END);
}

/// What sections came out at, where it was measured; those furthest off, in cutting order.
fn came_out(html: &mut Html, planned: &Outcome, rows: &[Row], unit: Unit) {
    let mut ours: Vec<&Row> = Vec::new();
    for row in rows.iter().filter(|row| row.measured) {
        let at = ours.partition_point(|other| other.off() >= row.off());
        ours.insert(at, row);
    }
    let more = ours.len().saturating_sub(MOST_ROWS);
    ours.truncate(MOST_ROWS);
    if ours.is_empty() {
        return;
    }
    let name = tr!(
        "Measured at the chair, longest hair as held, in {}",
        unit.word()
    );
    open(
        html,
        &name,
        &[
            tr("Section"),
            tr("Planned"),
            tr("Came out"),
            tr("Difference"),
        ],
    );
    for section in &planned.sections {
        let Some(of) = ours.iter().find(|row| row.key == section.key) else {
            continue;
        };
        let name = [&of.name, ", ", &kept().said(of.key.side.said())].concat();
        let cut = of
            .cut
            .map_or(String::new(), |cut| cut.measured_number(unit));
        let off = of.difference().map_or(String::new(), |cm| signed(cm, unit));
        row(html, &name, &[of.planned.measured_number(unit), cut, off]);
    }
    html.raw("</tbody></table>");
    if more > 0 {
        html.within(
            "<p>",
            &tr!("And {} more, nearer to the plan.", more),
            "</p>",
        );
    }
    html.raw("</div></section>");
}

/// The criteria with what was said, and a box for the assessor.
fn criteria(html: &mut Html, cut: &SavedCut, seen: bool) {
    let judged = &cut.visit.judged;
    html.within(
        "<section class=\"sheet-step assess-part assess-criteria\"><h2>",
        tr("What was done"),
        "</h2><div class=\"assess-columns\">",
    );
    for period in Period::ALL {
        html.within(
            "<div class=\"sheet-table\" role=\"region\" tabindex=\"0\" aria-label=\"",
            period.title(),
            "\"><table><thead><tr><th scope=\"col\">",
        );
        html.within("", period.title(), "</th><th scope=\"col\">");
        html.within("", tr("Own"), "</th><th scope=\"col\" class=\"sheet-box\">");
        html.within("", tr("Assessor"), "</th></tr></thead><tbody>");
        for one in CRITERIA.iter().filter(|one| one.period == period) {
            html.within("<tr><th scope=\"row\">", &kept().said(one.words), "");
            let remark = judged.remark(one.id).trim();
            if !remark.is_empty() && !seen {
                html.within(" <span class=\"assess-remark\">", remark, "</span>");
            }
            let said = judged.said(one.id).filter(|_| !seen);
            html.within(
                "</th><td>",
                said.map_or("", Said::name),
                "</td><td class=\"sheet-box\"></td></tr>",
            );
        }
        html.raw("</tbody></table></div>");
    }
    let sources: Vec<&str> = Standard::ALL.iter().map(|s| s.title()).collect();
    html.within(
        "</div><p class=\"soft\">",
        &tr!("In our own words, in the sense of: {}.", sources.join("; ")),
        "</p></section>",
    );
}

fn look_back(html: &mut Html, cut: &SavedCut) {
    let judged = &cut.visit.judged;
    let all = [
        (tr("Went well"), &judged.well),
        (tr("Differently"), &judged.otherwise),
        (tr("Next aim"), &judged.next),
    ];
    if all.iter().all(|(_, text)| text.trim().is_empty()) {
        return;
    }
    html.within(
        "<section class=\"sheet-lines assess-back\"><h2>",
        tr("Looking back"),
        "</h2><dl class=\"sheet-words\">",
    );
    for (name, text) in all {
        html.line(name, text.trim());
    }
    html.raw("</dl></section>");
}

/// Room for the assessor's own hand.
fn by_hand(html: &mut Html) {
    html.within(
        "<section class=\"sheet-lines assess-hand\"><h2>",
        tr("Assessor"),
        "</h2><ul>",
    );
    for line in [
        tr_in("of an assessor", "Mark"),
        tr("Remarks"),
        tr("Name and day"),
        tr("Signature"),
    ] {
        html.within("<li>", line, "</li>");
    }
    html.raw("</ul></section>");
}
