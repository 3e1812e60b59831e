//! The rooms of the code depend one way only, and only `ui` and `store` know the browser.

use std::fs;
use std::path::{Path, PathBuf};

/// The rooms from the ground up: each may use those before it.
const ROOMS: [&str; 16] = [
    "words", "json", "measure", "geometry", "head", "hair", "fall", "plan", "cut", "consult",
    "walk", "book", "store", "chart", "learn", "ui",
];
/// What only `ui` and `store` may name.
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

/// Faults of one line in one room.
fn faults(room: usize, line: &str) -> Vec<String> {
    let mut faults = Vec::new();
    for (other, name) in ROOMS.iter().enumerate() {
        // `store` and `chart` stand side by side: neither uses the other.
        let apart = [ROOMS[room], name]
            .iter()
            .all(|r| ["store", "chart"].contains(r));
        if other != room && (other > room || apart) && line.contains(&format!("crate::{name}::")) {
            faults.push(format!("{} uses {name}", ROOMS[room]));
        }
    }
    let shell = ["store", "ui"].contains(&ROOMS[room]);
    if !shell && let Some(name) = BROWSER.iter().find(|name| line.contains(*name)) {
        faults.push(format!("{} knows the browser ({name})", ROOMS[room]));
    }
    faults
}

#[test]
fn rooms_use_only_rooms_above_them() {
    let mut looked = 0;
    for (room, name) in ROOMS.iter().enumerate() {
        for path in files(&Path::new("src").join(name)) {
            looked += 1;
            for line in code(&path) {
                assert_eq!(
                    faults(room, &line),
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
fn the_check_itself_can_fail() {
    let place = |name| ROOMS.iter().position(|r| *r == name).unwrap();
    assert!(!faults(place("geometry"), "use crate::head::Head;").is_empty());
    assert!(!faults(place("chart"), "use crate::store::Store;").is_empty());
    assert!(!faults(place("cut"), "use leptos::prelude::*;").is_empty());
    assert!(faults(place("cut"), "use crate::head::Head;").is_empty());
}

#[test]
fn no_file_is_too_long_to_read_at_a_sitting() {
    for path in files(Path::new("src")) {
        let lines = fs::read_to_string(&path).unwrap().lines().count();
        assert!(lines <= 450, "{}: {lines} lines", path.display());
    }
}
