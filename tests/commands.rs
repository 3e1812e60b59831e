//! The native commands as a person runs them.

use serde_json::Value;
use std::io::Write;
use std::process::{Command, Output, Stdio};

fn run(program: &str, arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(input.as_bytes())
        .unwrap();
    child.wait_with_output().unwrap()
}

fn taut(input: &str) -> (Vec<Value>, i32) {
    answers(env!("CARGO_BIN_EXE_taut"), input)
}

fn head(input: &str) -> (Vec<Value>, i32) {
    answers(env!("CARGO_BIN_EXE_head"), input)
}

/// What a command that answers line by line says, and its exit code.
fn answers(program: &str, input: &str) -> (Vec<Value>, i32) {
    let out = run(program, &[], input);
    let text = String::from_utf8(out.stdout).unwrap();
    (
        text.lines()
            .map(|l| serde_json::from_str(l).unwrap())
            .collect(),
        out.status.code().unwrap(),
    )
}

fn lengths(arguments: &[&str]) -> Output {
    run(env!("CARGO_BIN_EXE_lengths"), arguments, "")
}

/// The closed form on a sphere of 9 cm: R(α − acos(R/d)) + √(d² − R²) beyond the tangent.
#[test]
fn taut_answers_line_by_line_and_goes_on_after_a_bad_one() {
    let (answers, code) = taut(concat!(
        r#"{"axes":[9,9,9],"root":[9,0,0],"hold":[0,0,15]}"#,
        "\n",
        "nonsense\n\n",
        r#"{"axes":[9,9,9],"root":[0,0,9],"hold":[0,3,20]}"#,
        "\n",
        r#"{"axes":[9,9,9],"root":[9,0,0],"hold":[1,0,2]}"#,
        "\n",
        r#"{"axes":[9,9,9],"root":[9,0,0],"hold":[-14,0,0]}"#,
    ));
    assert_eq!(code, 1);
    assert_eq!(answers.len(), 5);
    let length = |i: usize| answers[i]["length"].as_f64().unwrap();
    let known = |alpha: f64, d: f64| 9.0 * (alpha - (9.0 / d).acos()) + (d * d - 81.0).sqrt();
    assert!((length(0) - known(std::f64::consts::FRAC_PI_2, 15.0)).abs() < 1e-3);
    assert_eq!(answers[0]["wrapped"], true);
    assert!(
        answers[1]["error"]
            .as_str()
            .unwrap()
            .contains("not a question")
    );
    assert!((length(2) - 130.0_f64.sqrt()).abs() < 1e-9);
    assert_eq!(answers[2]["wrapped"], false);
    assert!(
        answers[3]["error"]
            .as_str()
            .unwrap()
            .contains("inside the head")
    );
    // Straight opposite: every way round is as short.
    assert!((length(4) - known(std::f64::consts::PI, 14.0)).abs() < 1e-3);
}

#[test]
fn taut_ends_well_when_all_is_well() {
    let (answers, code) = taut("{\"axes\":[7,9,8],\"root\":[7,0,0],\"hold\":[20,1,1]}\n");
    assert_eq!((answers.len(), code), (1, 0));
    assert_eq!(taut("").1, 0);
}

#[test]
fn head_gives_tapes_back_and_says_what_it_guessed() {
    let (answers, code) = head(concat!(
        r#"{"circumference":56.1,"ear_to_ear":34.1,"back":"full","left_ear_up":0.5}"#,
        "\n",
        r#"{"circumference":48,"length":21,"breadth":17}"#,
        "\n\n",
        "nonsense\n",
        r#"{"kind":"practice","top":null}"#,
    ));
    assert_eq!((answers.len(), code), (4, 1));
    let whole = &answers[0];
    assert_eq!(whole["tapes"].as_object().unwrap().len(), 6);
    for (key, cm) in [("circumference", 56.1), ("ear_to_ear", 34.1)] {
        assert!((whole["tapes"][key].as_f64().unwrap() - cm).abs() < 0.1);
        assert!(whole["estimated"].get(key).is_none());
    }
    let length = &whole["estimated"]["length"];
    assert!(length["error_cm"].as_f64().unwrap() > 0.3);
    let shown = length["shown"].as_str().unwrap();
    assert!(shown.contains(" ± ") && shown.ends_with(" cm"), "{shown}");
    let shape = serde_json::json!({
        "back": "full", "top": "even", "kind": "person", "left_ear_up": 0.5
    });
    assert_eq!(whole["shape"], shape);
    for bad in &answers[1..3] {
        assert!(bad["error"].as_str().unwrap().ends_with('.'));
        assert_eq!(bad.as_object().unwrap().len(), 1);
    }
    assert_eq!(answers[3]["shape"]["kind"], "practice");
    assert_eq!(answers[3]["estimated"].as_object().unwrap().len(), 6);
    assert_eq!(head("{}\n").1, 0);
}

/// More answers than a pipe holds, and nobody to read them.
#[test]
fn head_takes_a_closed_pipe_as_an_end() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_head"))
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    // The command may be gone before all is written: that is the point.
    let _ = child.stdin.take().unwrap().write_all(&b"{}\n".repeat(200));
    let out = child.wait_with_output().unwrap();
    assert_eq!(out.status.code(), Some(0));
    assert!(out.stderr.is_empty());
}

#[test]
fn lengths_gives_an_object_a_section() {
    let out = lengths(&["--plan", "soft-layers-face-frame", "--set", "landmark=chin"]);
    assert!(out.status.success());
    let rows: Vec<Value> = serde_json::from_slice(&out.stdout).unwrap();
    for row in &rows {
        let keys: Vec<&str> = row
            .as_object()
            .unwrap()
            .keys()
            .map(String::as_str)
            .collect();
        let mut expected = [
            "step",
            "section",
            "side",
            "short_cm",
            "long_cm",
            "off_cm",
            "reach",
            "falls_to",
            "weight_line_cm",
        ]
        .to_vec();
        expected.sort_unstable();
        let mut keys = keys;
        keys.sort_unstable();
        assert_eq!(keys, expected);
    }
    let left = rows.iter().filter(|r| r["side"] == "left").count();
    assert_eq!(left * 2, rows.len());
    assert!(rows.iter().any(|r| r["step"] == "back"));
}

/// What falls to, the weight and every root are consistent with the section they belong to.
#[test]
fn lengths_says_where_hair_falls_and_where_the_weight_lies() {
    let out = lengths(&["--plan", "soft-layers-face-frame", "--roots"]);
    let rows: Vec<Value> = serde_json::from_slice(&out.stdout).unwrap();
    for row in &rows {
        let number = |value: &Value| value.as_f64().unwrap();
        let falls = &row["falls_to"];
        // Straight hair hangs as long as it is cut.
        assert!(number(&falls["long_cm"]) >= number(&row["long_cm"]) - 1e-3);
        assert!(falls["landmark"].is_string() && number(&falls["below_cm"]).is_finite());
        assert!((10.0..60.0).contains(&number(&row["weight_line_cm"])));
        let roots = row["roots"].as_array().unwrap();
        let check = row["step"] == "cross-check";
        assert_eq!(roots.len(), if check { 1 } else { 9 });
        let after = roots.iter().map(|r| number(&r["after_cm"]));
        let longest = after.fold(0.0, f64::max);
        assert!((longest - number(&falls["long_cm"])).abs() < 1e-3);
        for root in roots {
            assert!(number(&root["after_cm"]) <= number(&root["before_cm"]));
            assert_eq!(root["root"].as_array().unwrap().len(), 3);
            let lowest = number(&falls["below_top_cm"]);
            assert!(number(&root["falls_to"]["below_top_cm"]) <= lowest + 1e-3);
        }
    }
}

#[test]
fn lengths_reads_a_hair_file() {
    let file = std::env::temp_dir().join(format!("tautline-hair-{}.json", std::process::id()));
    let name = file.to_str().unwrap().to_owned();
    let of = |text: &str| {
        std::fs::write(&file, text).unwrap();
        lengths(&["--plan", "soft-layers-face-frame", "--hair", &name])
    };
    let rows = |out: &Output| serde_json::from_slice::<Vec<Value>>(&out.stdout).unwrap();
    let curly = rows(&of(r#"{"hanging":{"front":0.8}}"#));
    let straight = rows(&of("{}"));
    // Both fall to the same landmark; the curly one is cut longer for it by a quarter.
    let long = |rows: &[Value]| rows[0]["long_cm"].as_f64().unwrap();
    assert!((long(&curly) / long(&straight) - 1.25).abs() < 1e-3);
    let low = |rows: &[Value]| rows[0]["falls_to"]["below_top_cm"].as_f64().unwrap();
    assert!((low(&curly) - low(&straight)).abs() < 0.01);
    let refused = of(r#"{"curl":3}"#);
    assert_eq!(refused.status.code(), Some(1));
    assert!(
        String::from_utf8(refused.stderr)
            .unwrap()
            .contains("not a hair file")
    );
    std::fs::remove_file(&file).unwrap();
}

#[test]
fn lengths_reads_a_head_file_and_refuses_nonsense_with_a_sentence() {
    let file = std::env::temp_dir().join(format!("tautline-head-{}.json", std::process::id()));
    let name = file.to_str().unwrap().to_owned();
    let of = |text: &str| {
        std::fs::write(&file, text).unwrap();
        lengths(&["--plan", "soft-layers-face-frame", "--head", &name])
    };
    let small = of(r#"{"circumference":53.0,"ear_to_ear":32.0}"#);
    let large = of(r#"{"circumference":60.0,"ear_to_ear":37.0}"#);
    assert!(small.status.success() && large.status.success());
    let longest_back = |out: &Output| {
        let rows: Vec<Value> = serde_json::from_slice(&out.stdout).unwrap();
        rows.iter()
            .filter(|r| r["step"] == "back")
            .map(|r| r["long_cm"].as_f64().unwrap())
            .fold(0.0, f64::max)
    };
    assert!(longest_back(&large) > longest_back(&small) + 0.5);
    for text in [
        r#"{"girth":53.0}"#,
        r#"{"circumference":-53.0}"#,
        r#"{"circumference":530}"#,
        r#"{"circumference":48,"length":21,"breadth":17}"#,
        "no json",
    ] {
        let refused = of(text);
        assert_eq!(refused.status.code(), Some(1), "{text}");
        assert!(refused.stdout.is_empty());
        let sentence = String::from_utf8(refused.stderr).unwrap();
        assert!(sentence.trim_end().ends_with('.'), "{sentence}");
    }
    std::fs::remove_file(&file).unwrap();
}

#[test]
fn lengths_lists_its_plans_and_says_what_it_does_not_know() {
    let listed = String::from_utf8(lengths(&["--list"]).stdout).unwrap();
    assert!(listed.contains("soft-layers-face-frame") && listed.contains("--set parting=centre"));
    for wrong in [
        &["--plan", "none"][..],
        &[],
        &["--plan", "soft-layers-face-frame", "--set", "landmark=nose"],
        &["--plan", "soft-layers-face-frame", "--set", "colour=red"],
        &["--plan", "soft-layers-face-frame", "--set", "off"],
        &["--plan", "soft-layers-face-frame", "--set", "off=-2"],
        &[
            "--plan",
            "soft-layers-face-frame",
            "--head",
            "/nowhere.json",
        ],
        &["--bogus"],
    ] {
        let out = lengths(wrong);
        assert_eq!(out.status.code(), Some(1), "{wrong:?}");
        assert!(!out.stderr.is_empty() && out.stdout.is_empty());
    }
}
