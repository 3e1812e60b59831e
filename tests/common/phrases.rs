//! All texts for the catalogues, as they stand in the code and in the built-in cuts.

use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use tautline::plan::built_ins;

/// A text as a catalogue has it: its context, itself, and its form for many.
pub type Key = (Option<String>, String, Option<String>);

/// What a literal token says, if it is a string.
fn said(tree: Option<&TokenTree>) -> Option<String> {
    let TokenTree::Literal(literal) = tree? else {
        return None;
    };
    syn::parse_str::<syn::LitStr>(&literal.to_string())
        .ok()
        .map(|text| text.value())
}

fn is(tree: Option<&TokenTree>, sign: char) -> bool {
    matches!(tree, Some(TokenTree::Punct(punct)) if punct.as_char() == sign)
}

/// The text of one call, from what stands in its brackets.
fn key(name: &str, inside: &[TokenTree]) -> Option<Key> {
    let first = said(inside.first())?;
    if name == "tr_in" {
        return Some((Some(first), said(inside.get(2))?, None));
    }
    let (context, text, rest) = if is(inside.get(1), '=') && is(inside.get(2), '>') {
        (Some(first), said(inside.get(3))?, &inside[4..])
    } else {
        (None, first, &inside[1..])
    };
    let many = is(rest.first(), '|').then(|| said(rest.get(1))).flatten();
    Some((context, text, many))
}

fn from_code(tokens: TokenStream, place: &str, found: &mut BTreeMap<Key, String>) {
    let all: Vec<TokenTree> = tokens.into_iter().collect();
    let mut i = 0;
    while i < all.len() {
        // What a module has for its own tests only.
        if let [TokenTree::Ident(is_mod), TokenTree::Ident(name), ..] = &all[i..]
            && is_mod == "mod"
            && name == "tests"
        {
            i += 3;
            continue;
        }
        if let TokenTree::Ident(name) = &all[i]
            && ["tr", "tr_in", "noted"].contains(&name.to_string().as_str())
        {
            let at = i + 1 + usize::from(is(all.get(i + 1), '!'));
            if let Some(TokenTree::Group(group)) = all.get(at)
                && group.delimiter() == Delimiter::Parenthesis
            {
                let inside: Vec<TokenTree> = group.stream().into_iter().collect();
                if let Some(key) = key(&name.to_string(), &inside)
                    && !key.1.is_empty()
                {
                    found.entry(key).or_insert_with(|| place.to_owned());
                }
            }
        }
        if let TokenTree::Group(group) = &all[i] {
            from_code(group.stream(), place, found);
        }
        i += 1;
    }
}

fn from_folder(folder: &Path, found: &mut BTreeMap<Key, String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            if !path.ends_with("src/words") && !path.ends_with("src/bin") {
                from_folder(&path, found);
            }
        } else if path.extension().is_some_and(|e| e == "rs") {
            let tokens = fs::read_to_string(&path).unwrap().parse().unwrap();
            from_code(tokens, &path.display().to_string(), found);
        }
    }
}

/// Every text, with a place where it stands.
pub fn all() -> BTreeMap<Key, String> {
    let mut found = BTreeMap::new();
    from_folder(Path::new("src"), &mut found);
    found.insert(
        (Some("decimal mark".to_owned()), ".".to_owned(), None),
        "src/words/mod.rs".to_owned(),
    );
    for plan in built_ins() {
        let mut plan = plan.clone();
        let place = format!("src/plan/cuts/{}.json", plan.id);
        plan.each_text(&mut |text| {
            if !text.is_empty() {
                let key = (None, text.clone(), None);
                found.entry(key).or_insert_with(|| place.clone());
            }
        });
    }
    found
}
