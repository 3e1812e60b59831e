use tautline::*;
fn main() {
    let head = head::Head::from_tapes(&head::Tapes::default()).unwrap();
    let plan = plan::built_in("soft-layers-face-frame").unwrap();
    let mut ch = plan::Choices::default();
    if let Some(p) = std::env::args().nth(1) {
        ch.set(&plan, "parting", &p).unwrap();
    }
    let o = cut::cut(&head, &plan, &ch, &Default::default()).unwrap();
    let mut css = String::new();
    for f in ["tokens", "page", "controls", "pictures"] {
        css += &std::fs::read_to_string(format!("style/{f}.css")).unwrap();
    }
    let mut h = format!(
        "<!doctype html><meta charset=utf8><style>{css} .g{{display:grid;grid-template-columns:repeat(4,300px);gap:10px}} .drawing,.map{{max-height:340px}}</style><div class=g>"
    );
    for s in o
        .sections
        .iter()
        .filter(|s| s.key.side == head::Side::Left || s.key.number == 1)
    {
        let v = chart::View::of(s.key.side);
        h += &format!(
            "<div>{} {} {:?} {:.1}-{:.1}{}</div>",
            s.key.step,
            s.key.number,
            s.key.side,
            s.short().cm(),
            s.long().cm(),
            chart::profile(
                &head,
                v,
                &[chart::HeldHair {
                    section: s,
                    marked: true
                }],
                "t",
                "d"
            )
        );
    }
    let parcels: Vec<_> = o
        .sections
        .iter()
        .filter(|s| s.line.is_some())
        .enumerate()
        .map(|(i, s)| chart::Parcel {
            patch: s.section.patch,
            label: format!("{}", i + 1),
            state: if i < 3 {
                "done"
            } else if i == 4 {
                "now"
            } else {
                "due"
            },
        })
        .collect();
    h += &format!(
        "<div>{}</div>",
        chart::scalp_map(&head, &parcels, "map", "d")
    );
    let bars = chart::section_bars(&o, &[]);
    h += &format!(
        "<div>{}</div>",
        chart::section_chart(&bars, measure::Unit::Cm, "t", "d").unwrap()
    );
    for t in head::Tape::ALL {
        h += &format!("<div>{}{}</div>", t.name(), chart::tape_picture(&head, t));
    }
    std::fs::write("/tmp/pics.html", h).unwrap();
}
