//! The rooms of the code depend one way only, and only `ui` and two files of `store` know the browser.

use std::fs;
use std::path::{Path, PathBuf};

/// The rooms from the ground up: each may use those before it.
const ROOMS: [&str; 16] = [
    "words", "json", "measure", "geometry", "head", "hair", "fall", "plan", "cut", "consult",
    "walk", "book", "store", "chart", "learn", "ui",
];
/// Rooms that do not use each other, though one stands before the other.
const APART: [(&str, &str); 5] = [
    ("json", "words"),
    ("chart", "store"),
    ("learn", "store"),
    ("measure", "json"),
    ("geometry", "measure"),
];
/// The files outside `ui` that know the browser.
const DOORS: [&str; 2] = ["src/store/browser.rs", "src/store/browser_journal.rs"];
/// What only they may name.
const BROWSER: [&str; 5] = ["leptos", "web_sys", "js_sys", "gloo_", "wasm_bindgen"];

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found
}

/// The lines of a file that are code, not comments.
fn code(path: &Path) -> Vec<String> {
    let text = fs::read_to_string(path).unwrap();
    text.lines()
        .map(str::trim)
        .filter(|l| !l.starts_with("//"))
        .map(str::to_owned)
        .collect()
}

/// Faults of one line in a file of one room.
fn faults(room: usize, file: &Path, line: &str) -> Vec<String> {
    let mut faults = Vec::new();
    let ours = ROOMS[room];
    // One `use` a room, so that each is found.
    if line.contains("use crate::{") {
        faults.push(format!("{ours} uses several rooms in one line"));
    }
    for (other, name) in ROOMS.iter().enumerate() {
        let apart = other > room || APART.contains(&(ours, name));
        if other != room && apart && line.contains(&format!("crate::{name}::")) {
            faults.push(format!("{ours} uses {name}"));
        }
    }
    if ours != "ui" && !DOORS.iter().any(|door| file == Path::new(door)) {
        faults.extend(knows_the_browser(ours, line));
    }
    faults
}

fn knows_the_browser(who: &str, line: &str) -> Option<String> {
    let name = BROWSER.iter().find(|name| line.contains(*name))?;
    Some(format!("{who} knows the browser ({name})"))
}

#[test]
fn rooms_use_only_rooms_above_them() {
    let mut looked = 0;
    for (room, name) in ROOMS.iter().enumerate() {
        for path in files(&Path::new("src").join(name)) {
            looked += 1;
            for line in code(&path) {
                assert_eq!(
                    faults(room, &path, &line),
                    Vec::<String>::new(),
                    "{}: {line}",
                    path.display()
                );
            }
        }
    }
    assert!(looked > 40, "{looked}");
}

#[test]
fn commands_know_neither_screens_nor_the_browser() {
    let all = files(Path::new("src/bin"));
    assert!(all.len() >= 5, "{}", all.len());
    for path in all {
        for line in code(&path) {
            let who = path.display().to_string();
            assert_eq!(knows_the_browser(&who, &line), None, "{line}");
            assert!(!line.contains("tautline::ui"), "{who}: {line}");
        }
    }
}

#[test]
fn the_check_itself_can_fail() {
    let fails = |name, line| {
        let room = ROOMS.iter().position(|r| *r == name).unwrap();
        let file = Path::new("src").join(name).join("some.rs");
        !faults(room, &file, line).is_empty()
    };
    assert!(fails("geometry", "use crate::head::Head;"));
    assert!(fails("geometry", "use crate::measure::Length;"));
    assert!(fails("measure", "use crate::json::Tree;"));
    assert!(fails("chart", "use crate::store::Store;"));
    assert!(fails("learn", "use crate::store::Store;"));
    assert!(fails("cut", "use leptos::prelude::*;"));
    assert!(fails("store", "use web_sys::Window;"));
    assert!(fails("cut", "use crate::{head::Head, ui::start};"));
    assert!(!fails("cut", "use crate::head::Head;"));
    // The two doors that name the browser are there, and do.
    for door in DOORS {
        let named = code(Path::new(door));
        assert!(
            named.iter().any(|l| knows_the_browser(door, l).is_some()),
            "{door}"
        );
    }
}

#[test]
fn no_file_is_too_long_to_read_at_a_sitting() {
    for path in files(Path::new("src")) {
        let lines = fs::read_to_string(&path).unwrap().lines().count();
        assert!(lines <= 450, "{}: {lines} lines", path.display());
    }
}
