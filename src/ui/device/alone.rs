//! A picture of the page that stands alone: the same ink without the page's style sheets, on light paper.

use leptos::prelude::*;
use leptos::web_sys::{CssStyleDeclaration, Element, NodeList, XmlSerializer};
use wasm_bindgen::JsCast;

/// What makes the ink of an element, as style sheets call it.
const INK: [&str; 12] = [
    "fill",
    "fill-opacity",
    "stroke",
    "stroke-width",
    "stroke-opacity",
    "stroke-dasharray",
    "stroke-linecap",
    "stroke-linejoin",
    "opacity",
    "paint-order",
    "display",
    "visibility",
];
/// And of its letters.
const LETTERS: [&str; 3] = ["font-family", "font-size", "font-weight"];
/// The colours by name that charts write into their elements.
const NAMED: [&str; 13] = [
    "--paper",
    "--sheet",
    "--ink",
    "--soft",
    "--line",
    "--edge",
    "--accent",
    "--accent-wash",
    "--left-wash",
    "--left",
    "--right",
    "--good",
    "--on-accent",
];
/// Air around a picture, as a share of its width.
const AIR: f64 = 0.03;

/// A picture that stands alone.
pub struct Alone {
    /// It as SVG.
    pub svg: String,
    /// How wide and how high it is, in its own units.
    pub size: (f64, f64),
}

/// The first picture inside the element of this `id`; none if there is none, or the browser can't tell how
/// it is drawn.
pub fn alone(id: &str) -> Option<Alone> {
    let drawn = document().get_element_by_id(id)?;
    let drawn = drawn.query_selector("svg[role=img]").ok()??;
    let root = document().document_element()?;
    // Paper is light. Nothing is painted before the look is back.
    let look = root.get_attribute("data-look");
    root.set_attribute("data-look", "light").ok()?;
    let copied = copied(&drawn, &root);
    let _ = match look {
        Some(look) => root.set_attribute("data-look", &look),
        None => root.remove_attribute("data-look"),
    };
    copied
}

fn copied(drawn: &Element, root: &Element) -> Option<Alone> {
    let copy: Element = drawn.clone_node_with_deep(true).ok()?.dyn_into().ok()?;
    let area: Vec<f64> = copy
        .get_attribute("viewBox")?
        .split([' ', ','])
        .filter_map(crate::measure::read_decimal)
        .collect();
    let &[x, y, width, height] = area.as_slice() else {
        return None;
    };
    let air = width * AIR;
    let size = (width + 2.0 * air, height + 2.0 * air);
    let (x, y) = (x - air, y - air);
    let place = format!("{x} {y} {} {}", size.0, size.1);
    copy.remove_attribute("class").ok()?;
    copy.set_attribute("xmlns", "http://www.w3.org/2000/svg")
        .ok()?;
    copy.set_attribute("viewBox", &place).ok()?;
    copy.set_attribute("width", &size.0.to_string()).ok()?;
    copy.set_attribute("height", &size.1.to_string()).ok()?;
    inked(&drawn.query_selector_all("*").ok()?, &copy);
    let mut svg = XmlSerializer::new().ok()?.serialize_to_string(&copy).ok()?;
    let style = window().get_computed_style(root).ok()??;
    for name in NAMED {
        let colour = style.get_property_value(name).ok()?;
        svg = svg.replace(&["var(", name, ")"].concat(), colour.trim());
    }
    let paper = style.get_property_value("--sheet").ok()?;
    let ground = format!(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"{}\"/>",
        // Over the edge, which may lie within a pixel.
        x - air,
        y - air,
        size.0 + 2.0 * air,
        size.1 + 2.0 * air,
        paper.trim()
    );
    // Under all else, but after the title, which readers look for first.
    let at = ["</desc>", "</title>", ">"]
        .iter()
        .find_map(|end| svg.find(end).map(|at| at + end.len()))?;
    svg.insert_str(at, &ground);
    Some(Alone { svg, size })
}

/// Writes into every element of a copy how the one that is drawn looks.
fn inked(drawn: &NodeList, copy: &Element) {
    let Ok(copies) = copy.query_selector_all("*") else {
        return;
    };
    for i in 0..drawn.length() {
        let pair = (element(drawn, i), element(&copies, i));
        let (Some(from), Some(to)) = pair else {
            continue;
        };
        if matches!(from.tag_name().as_str(), "title" | "desc") {
            continue;
        }
        let Ok(Some(style)) = window().get_computed_style(&from) else {
            continue;
        };
        ink(&style, &INK, &to);
        if from.tag_name() == "text" {
            ink(&style, &LETTERS, &to);
        }
        let _ = to.remove_attribute("class");
    }
}

fn element(all: &NodeList, i: u32) -> Option<Element> {
    all.get(i)?.dyn_into().ok()
}

/// As attributes of SVG, each by the name that style sheets have for it: the page's policy lets no element
/// carry a style of its own.
fn ink(style: &CssStyleDeclaration, names: &[&str], to: &Element) {
    for name in names {
        if let Ok(value) = style.get_property_value(name) {
            // A font's own quotes would end the attribute in some readers.
            let _ = to.set_attribute(name, &value.replace('"', "'"));
        }
    }
}
