//! Tables leave the phone as CSV and JSON: read here by Python's own `csv` and `json`, in tests/outside by polars.

use std::process::Command;

use liftgate_core::view::Document;
use liftgate_tests::Person;
use liftgate_tests::example::Kind;
use liftgate_tests::walk::Walk;

const TABLES: [(&str, &str); 6] = [
    ("Flights and runs", "flights"),
    ("Readings after landing", "landings"),
    ("Flight packs", "packs"),
    ("Parts and their lives", "parts"),
    ("Changes of settings", "settings"),
    ("Findings", "findings"),
];

fn at_the_page(person: &mut Person) {
    person.home();
    person.tap("Aircraft");
    person.tap("The dossier");
}

/// Flown once with a log of it in the journal, with a setting changed for a reason that would be a formula, and a finding.
fn flown() -> Walk {
    let mut walk = Walk::at_log(Kind::Scale, "Hover at the lowest head speed");
    walk.person.home();
    walk.person.tap("Aircraft");
    walk.person.tap("Tail gain");
    walk.person.enter("New value", "-12");
    walk.person.enter("Why", "=HYPERLINK(\"http://example.org\"), said \"so\"");
    walk.person.tap("Record it");
    walk
}

/// What Python makes of a table: `len(rows)`, the columns, and a cell.
fn python(text: &[u8], form: &str, cell: (&str, usize)) -> (usize, Vec<String>, String) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("table");
    std::fs::write(&file, text).unwrap();
    let read = match form {
        "csv" => "rows = list(csv.DictReader(open(sys.argv[1], encoding='utf-8-sig', newline='')))",
        _ => "rows = json.load(open(sys.argv[1], encoding='utf-8'))",
    };
    let script = format!(
        "import csv, json, sys\n{read}\nrow = rows[{}] if rows else {{}}\nprint(len(rows))\nprint(','.join(row))\nprint(row.get('{}'))",
        cell.1, cell.0
    );
    let run = Command::new("python3").args(["-c", &script]).arg(&file).output().expect("Python 3");
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    let said = String::from_utf8(run.stdout).unwrap();
    let mut lines = said.lines();
    let count = lines.next().unwrap().parse().unwrap();
    let columns = lines.next().unwrap().split(',').map(str::to_owned).collect();
    (count, columns, lines.collect::<Vec<_>>().join("\n"))
}

/// The columns that the page of the tables writes down.
fn written_down(table: &str) -> Vec<String> {
    let page = include_str!("../../core/docs/tables.md");
    let part = page.split(&format!("## {table}\n")).nth(1).unwrap().split("\n## ").next().unwrap();
    let cells = part.lines().filter_map(|line| line.strip_prefix("| `")).filter_map(|line| line.split('`').next());
    cells.map(str::to_owned).collect()
}

#[test]
fn each_table_is_saved_in_both_forms_with_the_columns_that_are_written_down() {
    let mut walk = flown();
    at_the_page(&mut walk.person);
    let entries = walk.person.entries().len();
    for form in ["csv", "json"] {
        walk.person.tap(if form == "csv" { "CSV, for a spreadsheet" } else { "JSON, for a program" });
        for (words, table) in TABLES {
            let Some(Document::Save { name, media_type }) = walk.person.control(words).unwrap().document else {
                panic!("'{words}' saves nothing")
            };
            let media = if form == "csv" { "text/csv" } else { "application/json" };
            assert_eq!((name, media_type.as_str()), (format!("regenpfeifer-{table}.{form}"), media));
            let text = walk.person.save(words);
            let (count, columns, _) = python(&text, form, ("", 0));
            if table == "findings" {
                assert_eq!(count, 0);
                continue;
            }
            let mut wanted = written_down(table);
            let mut columns = columns;
            if form == "json" {
                // An object has no order.
                wanted.sort_unstable();
                columns.sort_unstable();
            }
            assert_eq!(columns, wanted, "{table} as {form}");
            assert!(count > 0, "{table}");
        }
    }
    assert_eq!(walk.person.entries().len(), entries, "nothing is recorded by it");
}

#[test]
fn values_are_the_journals_own_and_a_text_is_no_formula() {
    let mut walk = flown();
    // A person who reads in other units saves the same numbers.
    walk.person.home();
    walk.person.tap("Language and units");
    walk.person.tap("Fahrenheit, °F");
    at_the_page(&mut walk.person);
    let flights = walk.person.save("Flights and runs");
    let last = python(&flights, "csv", ("head_speed_rpm", 0)).0 - 1;
    let cell = |column: &str| python(&flights, "csv", (column, last)).2;
    assert_eq!(
        (cell("head_speed_rpm").as_str(), cell("flown_s").as_str(), cell("used_mah").as_str()),
        ("1000", "120", "650")
    );
    assert_eq!((cell("judgement").as_str(), cell("packs").as_str()), ("as-it-should-be", "Pack 1"));
    let landings = walk.person.save("Readings after landing");
    let rows = python(&landings, "csv", ("place", 0)).0;
    let celsius: f64 = python(&landings, "csv", ("temperature_c", rows - 1)).2.parse().unwrap();
    assert!((20.0..90.0).contains(&celsius), "degrees Celsius: {celsius}");

    let settings = walk.person.save("Changes of settings");
    let last = python(&settings, "csv", ("reason", 0)).0 - 1;
    let csv = |column: &str| python(&settings, "csv", (column, last)).2;
    let formula = "=HYPERLINK(\"http://example.org\"), said \"so\"";
    assert_eq!(csv("reason"), format!("'{formula}"));
    assert_eq!(csv("after"), "'-12", "what was typed is a text, whatever it looks like");
    walk.person.tap("JSON, for a program");
    let settings = walk.person.save("Changes of settings");
    assert_eq!(python(&settings, "json", ("reason", last)).2, formula);
}
