//! Plans: every fault is found with its line, its column and what is wrong, and the shipped plan holds what it promises.
#![allow(clippy::unwrap_used)]

mod common;

use std::collections::{BTreeMap, BTreeSet};

use liftgate_core::locale::{Language, Locale, Measures, TemperatureScale};
use liftgate_core::plan::{
    Check, CheckKind, Computation, Fly, Limit, Motion, Plan, PlanFaults, PlanReason, SHIPPED, Subject,
};
use liftgate_core::record::ThingKind;
use liftgate_core::unit::Unit;

/// A small plan with one of everything. The tests below break it in one place each.
const WHOLE: &str = include_str!("common/small_plan.toml");

fn faults(text: &str) -> PlanFaults {
    match Plan::parse("my.toml", text) {
        Err(faults) => faults,
        Ok(_) => {
            let sound: Vec<&str> = WHOLE.lines().collect();
            let broken: Vec<&str> = text.lines().filter(|line| !sound.contains(line)).collect();
            panic!("the plan was taken as whole with {broken:?}")
        }
    }
}

/// Line and column, in characters from 1, of the first place where `needle` stands.
fn place_of(text: &str, needle: &str) -> (usize, usize) {
    let before = text.split_once(needle).unwrap_or_else(|| panic!("'{needle}' is not in the plan")).0;
    let line = before.rsplit('\n').next().unwrap();
    (before.lines().count() + usize::from(line.is_empty()), line.chars().count() + 1)
}

/// Replaces the one place where `from` stands.
fn with(from: &str, to: &str) -> String {
    assert_eq!(WHOLE.matches(from).count(), 1, "'{from}' must stand once in the small plan");
    WHOLE.replace(from, to)
}

/// Breaks the plan and expects exactly one fault, at `at` (found in the broken text), that says `reason`.
fn expect(from: &str, to: &str, at: &str, reason: &str) {
    let text = with(from, to);
    let found = faults(&text);
    let (line, column) = place_of(&text, at);
    assert_eq!(found.faults.len(), 1, "{to}: {found}");
    let fault = &found.faults[0];
    assert!(fault.reason.to_string().contains(reason), "'{to}': expected '{reason}' in: {}", fault.reason);
    assert_eq!((fault.line, fault.column), (line, column), "'{to}': {found}");
    assert!(found.to_string().starts_with(&format!("my.toml:{line}:{column}: ")), "{found}");
    says_the_same_in_german(&fault.reason);
}

const GERMAN: Locale =
    Locale { language: Language::German, temperature: TemperatureScale::Celsius, measures: Measures::Metric };

/// Another sentence, with the same ids and keys of the file in it.
fn says_the_same_in_german(reason: &PlanReason) {
    let (english, german) = (reason.to_string(), reason.words(GERMAN));
    assert_ne!(english, german);
    for named in english.split(['\'', '`']).skip(1).step_by(2) {
        assert!(german.contains(named), "'{named}' of '{english}' is not in '{german}'");
    }
}

#[test]
fn the_small_plan_is_whole() {
    let plan = Plan::parse("my.toml", WHOLE).unwrap();
    assert_eq!(plan.stages.iter().map(|s| s.id.as_str()).collect::<Vec<_>>(), ["bench", "fit", "ladder", "service"]);
    // Without `after` a stage follows the last one before it that has a gate; the first follows none.
    assert_eq!(plan.stages[0].after, Vec::<String>::new());
    assert_eq!(plan.stages[2].after, ["fit"]);
    assert_eq!(plan.check("gap").unwrap().1.rests_on, [Subject::Part("blades".into()), Subject::Papers]);
}

// ------------------------------------------------------------------------------------------ its TOML

#[test]
fn a_slip_of_syntax_is_placed() {
    for (from, to) in [
        ("title = \"Bench\"", "title = \"Bench"),
        ("job = 2", "job ="),
        ("[[stage.check]]\nid = \"look\"", "[[stage.check]\nid = \"look\""),
        ("holds = \"session\"", "holds = \"session\"\nholds = \"session\""),
    ] {
        let text = with(from, to);
        let found = faults(&text);
        // The line that the slip is in; what the parser calls its column is its own matter.
        let (line, _) = place_of(&text, to.lines().next().unwrap());
        let slip = line..=line + to.matches('\n').count();
        assert_eq!(found.faults.len(), 1, "{found}");
        assert!(slip.contains(&found.faults[0].line), "{to}: {found}");
        assert!(
            !found.faults[0].reason.to_string().is_empty() && !found.faults[0].reason.to_string().contains('\n'),
            "{found}"
        );
    }
}

#[test]
fn an_unknown_key_is_named_and_placed() {
    expect("edition = \"1\"", "editon = \"1\"", "editon", "unknown field `editon`");
    expect("purpose = \"At the bench.\"", "purpose = \"a\"\ncolour = \"red\"", "colour", "unknown field `colour`");
    expect("minutes = 1.5", "minutes = 1.5\nwind = 3", "wind = 3", "unknown field `wind`");
    expect("step = 0.5", "step = 0.5\nstops_above = 9.0", "stops_above", "unknown field `stops_above`");
}

#[test]
fn a_measure_without_its_unit_is_placed() {
    let text = with("unit = \"mm\" # of the gap\n", "");
    let found = faults(&text);
    assert_eq!(found.faults.len(), 1);
    assert!(found.faults[0].reason.to_string().contains("missing field `unit`"), "{found}");
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "[stage.check.measure] # of the gap"));
}

#[test]
fn an_unknown_word_is_placed() {
    expect("unit = \"mm\" # of the gap", "unit = \"inch\"", "\"inch\"", "unknown variant `inch`");
    expect("motion = \"hover\" # rung-1", "motion = \"loop\"", "\"loop\"", "unknown variant `loop`");
    expect("kind = \"confirm\" # look", "kind = \"guess\"", "\"guess\"", "unknown variant `guess`");
    expect("compute = \"supply-load\"", "compute = \"luck\"", "\"luck\"", "unknown variant `luck`");
}

#[test]
fn a_limit_that_is_neither_number_nor_figure_is_placed_and_says_what_would_be_right() {
    for wrong in ["\"high\"", "{ figure = \"reach\", time = 2.0 }", "{ times = 2.0 }", "{ full_cell = 0.1 }"] {
        let to = format!("stop_below = {wrong} # of the gap");
        expect("stop_below = 2.0 # of the gap", &to, wrong, "a number, { figure = ");
    }
    expect("head_speed_rpm = 900.0 # rung-1", "head_speed_rpm = \"fast\"", "\"fast\"", "a number, { figure = ");
}

#[test]
fn a_share_of_a_figure_may_be_written_as_it_is() {
    let with = |times: &str| {
        let from = "stop_above = { figure = \"all-up\", times = 1.0 }";
        WHOLE.replace(from, &format!("stop_above = {{ figure = \"all-up\", times = {times} }}"))
    };
    let plan = Plan::parse("small.toml", &with("\"2/3\"")).unwrap();
    let limits = plan.checks().filter_map(|(_, check)| match &check.kind {
        CheckKind::Measure(measure) => measure.limits.stop_above.clone(),
        _ => None,
    });
    let shares: Vec<f64> = limits
        .filter_map(|limit| match limit {
            Limit::Figure { times, .. } => Some(times),
            _ => None,
        })
        .collect();
    assert_eq!(shares, [2.0 / 3.0]);
    for wrong in ["\"2/0\"", "\"0/3\"", "\"two thirds\"", "\"-2/3\"", "\"2\""] {
        assert!(Plan::parse("small.toml", &with(wrong)).is_err(), "{wrong}");
    }
}

#[test]
fn a_limit_from_a_full_cell_is_of_a_voltage_and_near_it() {
    // The gap is read in millimetres.
    let to = "stop_below = { full_cell_plus = 0.03 } # of the gap";
    expect("stop_below = 2.0 # of the gap", to, "{ full_cell_plus = 0.03 }", "full_cell_plus");
    let text = WHOLE.replace("unit = \"mm\"", "unit = \"V\"");
    let with = |plus: &str| {
        text.replace("stop_below = 2.0 # of the gap", &format!("stop_below = {{ full_cell_plus = {plus} }}"))
    };
    assert!(Plan::parse("small.toml", &with("-0.03")).is_ok());
    assert!(Plan::parse("small.toml", &with("1.2")).is_err(), "no limit of a cell");
    assert!(Plan::parse("small.toml", &with("nan")).is_err());
}

#[test]
fn a_plan_of_a_later_format_is_told_so() {
    expect("format = 1", "format = 2", "2\n", "format 1");
    // Also where it has keys that this format does not know: the format is what explains them.
    let text = with("format = 1", "format = 2\nweather = \"wet\"");
    let found = faults(&text);
    assert!(found.faults[0].reason.to_string().contains("reads plans of format 1"), "{found}");
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "2\nweather"));
}

#[test]
fn an_empty_file_and_a_plan_without_stages_are_refused() {
    let found = faults("");
    assert!(found.faults[0].reason.to_string().contains("missing field `format`"), "{found}");
    let text = WHOLE.split("[[stage]]").next().unwrap();
    let found = faults(text);
    assert!(found.faults[0].reason.to_string().contains("no stage"), "{found}");
}

// -------------------------------------------------------------------------------- what leads nowhere

#[test]
fn a_reference_that_leads_nowhere_is_placed() {
    let none = |what: &str| format!("there is no {what} 'nowhere'");
    expect("after = [\"bench\"]", "after = [\"nowhere\"]", "\"nowhere\"", &none("stage"));
    expect("cautions = [\"rotor\"] # of the stage", "cautions = [\"nowhere\"]", "\"nowhere\"", &none("caution"));
    expect("cautions = [\"rotor\"] # rung-1", "cautions = [\"rotor\", \"nowhere\"]", "\"nowhere\"", &none("caution"));
    expect("before_flights_from = \"fit\"", "before_flights_from = \"nowhere\"", "\"nowhere\"", &none("stage"));
    expect("read_on = \"rung-1\" # swing", "read_on = \"nowhere\"", "\"nowhere\"", &none("check"));
    let no_run = "read_on = \"review\" # swing";
    expect("read_on = \"rung-1\" # swing", no_run, "\"review\" # swing", "'review' is no check that is run or flown");
    expect("when = { tail = \"shrouded\" }", "when = { nowhere = \"shrouded\" }", "nowhere =", &none("trait"));
    expect(
        "when = { tail = \"shrouded\" }",
        "when = { tail = \"nowhere\" }",
        "\"nowhere\"",
        &none("choice of 'tail'"),
    );
    for (prefix, what) in [("part", "part"), ("setting", "setting"), ("figure", "figure"), ("check", "check")] {
        let to = format!("rests_on = [\"{prefix}:nowhere\"] # look");
        expect("rests_on = [\"part:motor\"] # look", &to, &format!("\"{prefix}:nowhere\""), &none(what));
    }
    let limit = "stop_above = { figure = \"nowhere\", times = 1.0 }";
    expect("stop_above = { figure = \"all-up\", times = 1.0 }", limit, "{ figure = \"nowhere\"", &none("figure"));
    let speed = "head_speed_rpm = { figure = \"nowhere\" }";
    expect("head_speed_rpm = 900.0 # rung-1", speed, "{ figure = \"nowhere\"", &none("figure"));
    expect("temperatures = [\"motor\"] # rung-1", "temperatures = [\"nowhere\"]", "\"nowhere\"", &none("place"));
}

#[test]
fn a_subject_that_is_none_is_placed() {
    for wrong in ["weather", "part", "plan:small", "Mass", ""] {
        let to = format!("rests_on = [\"{wrong}\"] # look");
        expect(
            "rests_on = [\"part:motor\"] # look",
            &to,
            &format!("\"{wrong}\"] # look"),
            "nothing that evidence rests on",
        );
    }
}

#[test]
fn stages_that_wait_for_each_other_are_named() {
    expect(
        "gate = \"Released.\" # bench",
        "gate = \"a\"\nafter = [\"ladder\"]",
        "\"bench\"",
        "bench > ladder > fit > bench",
    );
    expect("after = [\"bench\"]", "after = [\"fit\"]", "\"fit\"", "fit > fit");
}

#[test]
fn checks_that_rest_on_each_other_are_named() {
    let to = "rests_on = [\"check:review\"] # look";
    expect(
        "rests_on = [\"part:motor\"] # look",
        to,
        "\"look\"",
        "look > review > rung-2 > rung-1 > track > run-up > look",
    );
    let to = "rests_on = [\"check:look\"] # look";
    let text = with("rests_on = [\"part:motor\"] # look", to);
    let found = faults(&text);
    assert!(found.faults.iter().any(|fault| fault.reason.to_string().contains("look > look")), "{found}");
}

#[test]
fn a_gate_that_waits_for_a_stage_without_one_is_told() {
    // It would be released on nothing: a stage without a gate counts as passed.
    let prep = "[[stage]]\nid = \"prep\"\ntitle = \"a\"\npurpose = \"b\"\njob = 1\n\n[[stage]]\nid = \"bench\"";
    let text =
        with("[[stage]]\nid = \"bench\"", prep).replace("after = [\"bench\"]", "after = [\"bench\", \"prep\"]");
    let found = faults(&text);
    assert_eq!(found.faults.len(), 1, "{found}");
    assert!(found.faults[0].reason.to_string().contains("'prep' has no gate"), "{found}");
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "\"prep\"]"));
}

// --------------------------------------------------------------------------------------------- ids

#[test]
fn an_id_that_stands_twice_is_placed_at_the_second() {
    let twice = |what: &str, id: &str| format!("there is another {what} '{id}'");
    let add = |from: &str, more: &str, at: &str, reason: &str| expect(from, &format!("{from}{more}"), at, reason);
    add(
        "[[part]]\nid = \"motor\"\ntitle = \"Motor\"\n",
        "[[part]]\nid = \"blades\" # again\ntitle = \"a\"\n",
        "\"blades\" # again",
        &twice("part", "blades"),
    );
    expect("id = \"polish\"", "id = \"look\" # again", "\"look\" # again", "another check 'look'");
    add(
        "title = \"Trim\"\n",
        "[[setting]]\nid = \"trim\" # again\ntitle = \"a\"\n",
        "\"trim\" # again",
        &twice("setting", "trim"),
    );
    expect("id = \"reach\"", "id = \"speed\" # again", "\"speed\" # again", "another figure 'speed'");
    add(
        "[[place]]\nid = \"battery\"\n",
        "title = \"a\"\ncaution_above_c = 50.0\nstop_above_c = 60.0\nbasis = \"b\"\n\n[[place]]\nid = \"motor\" # again\n",
        "\"motor\" # again",
        &twice("place", "motor"),
    );
    expect("id = \"heat\"", "id = \"rotor\" # again", "\"rotor\" # again", "another caution 'rotor'");
    expect("id = \"wheels\"", "id = \"tail\" # again", "\"tail\" # again", "another trait 'tail'");
    let third = "{ id = \"no\", label = \"No\" }, { id = \"yes\", label = \"Again\" }";
    expect("{ id = \"no\", label = \"No\" }", third, "\"yes\", label = \"Again\"", "another choice 'yes'");
    let text = with("id = \"service\"", "id = \"bench\" # again");
    let found = faults(&text);
    // That a stage then waits for itself is told too.
    let fault = found.faults.iter().find(|fault| fault.reason.to_string().contains("another stage 'bench'")).unwrap();
    assert_eq!((fault.line, fault.column), place_of(&text, "\"bench\" # again"), "{found}");
}

#[test]
fn an_id_of_other_characters_is_placed() {
    for wrong in ["Reach", "reach limit", "reach_limit", "-reach", "reach-", "re--ach", "", "r\u{e9}ach", "reach:1"] {
        expect("id = \"reach\"", &format!("id = \"{wrong}\" # this"), &format!("\"{wrong}\" # this"), "is no id");
    }
    expect("id = \"small\"", "id = \"Small\"", "\"Small\"", "'Small' is no id");
}

#[test]
fn a_fault_behind_umlauts_is_placed_in_characters() {
    let to = "choices = [{ id = \"open\", label = \"Öffen, größer\" }, { id = \"Shrouded\", label = \"x\" }]";
    let text =
        with("choices = [{ id = \"open\", label = \"Open\" }, { id = \"shrouded\", label = \"Shrouded\" }]", to);
    let found = faults(&text);
    let fault = found.faults.iter().find(|fault| fault.reason.to_string().contains("'Shrouded' is no id")).unwrap();
    assert_eq!((fault.line, fault.column), place_of(&text, "\"Shrouded\""));
}

// ------------------------------------------------------------------------------------------ numbers

#[test]
fn a_plausible_range_that_is_none_is_placed() {
    let low_below_high = "low must lie below high";
    expect("low = 10.0 # speed", "low = 5000.0", "5000.0", low_below_high);
    expect("low = 10.0 # speed", "low = 3000.0", "3000.0", low_below_high);
    expect("low = 10.0 # speed", "low = nan", "nan", low_below_high);
    expect("low = 10.0 # speed", "low = -inf", "-inf", low_below_high);
    expect("caution_above_c = 80.0", "caution_above_c = 95.0", "95.0", low_below_high);
}

#[test]
fn a_step_and_a_start_that_make_no_sense_are_placed() {
    for wrong in ["0.0", "-0.5", "nan", "inf"] {
        expect(
            "step = 0.5",
            &format!("step = {wrong} # wrong"),
            &format!("{wrong} # wrong"),
            "a step must be above nought",
        );
    }
    for wrong in ["-0.1", "20.5", "nan"] {
        expect(
            "start = 4.0 # of the gap",
            &format!("start = {wrong} # wrong"),
            &format!("{wrong} # wrong"),
            "outside the plausible range",
        );
    }
}

#[test]
fn limits_out_of_order_or_out_of_range_are_placed() {
    let order = "limits rise from";
    expect("stop_below = 2.0 # of the gap", "stop_below = 3.5", "3.0 # caution", order);
    let both = "caution_below = 3.0 # caution\ncaution_above = 2.5";
    expect("caution_below = 3.0 # caution", both, "2.5", order);
    let both = "caution_below = 3.0 # caution\nstop_above = 2.9";
    expect("caution_below = 3.0 # caution", both, "2.9", order);
    let range = "outside the plausible range";
    expect("stop_below = 2.0 # of the gap", "stop_below = -1.0", "-1.0", range);
    expect("caution_below = 3.0 # caution", "caution_below = 3.0\nstop_above = 21.0", "21.0", range);
    expect("caution_below = 3.0 # caution", "caution_below = 3.0\nstop_above = nan", "nan", range);
    expect("caution_below = 3.0 # caution", "caution_below = 3.0\nstop_above = inf", "inf", range);
    // The same with a figure: of one and the same figure the greater share is the higher limit.
    let limits =
        "caution_above = { figure = \"all-up\", times = 1.2 }\nstop_above = { figure = \"all-up\", times = 1.0 }";
    expect("stop_above = { figure = \"all-up\", times = 1.0 }", limits, "{ figure = \"all-up\", times = 1.0", order);
}

#[test]
fn a_limit_by_a_figure_of_another_unit_is_placed() {
    let to = "stop_above = { figure = \"reach\", times = 1.0 }";
    expect(
        "stop_above = { figure = \"all-up\", times = 1.0 }",
        to,
        "{ figure = \"reach\", times",
        "is in mm, this wants kg",
    );
    let to = "head_speed_rpm = { figure = \"reach\" }";
    expect("head_speed_rpm = 900.0 # rung-1", to, "{ figure = \"reach\"", "is in mm, this wants rpm");
}

#[test]
fn a_factor_that_makes_no_limit_is_placed() {
    for wrong in ["0.0", "-1.0", "nan", "inf"] {
        let limit = format!("{{ figure = \"all-up\", times = {wrong} }}");
        let to = format!("stop_above = {limit}");
        expect("stop_above = { figure = \"all-up\", times = 1.0 }", &to, &limit, "times must be above nought");
    }
}

#[test]
fn a_head_speed_that_is_none_is_placed() {
    for wrong in ["0.0", "-900.0", "nan", "inf"] {
        let to = format!("head_speed_rpm = {wrong} # rung-1");
        expect("head_speed_rpm = 900.0 # rung-1", &to, &format!("{wrong} # rung-1"), "head speed lies above nought");
    }
    for wrong in ["0.0", "45.0", "nan", "-1.0"] {
        expect(
            "minutes = 1.5",
            &format!("minutes = {wrong}"),
            &format!("{wrong}\nknock"),
            "planned minutes lie between",
        );
    }
}

#[test]
fn a_measure_without_limit_or_basis_is_placed() {
    let text = with("stop_below = 2.0 # of the gap\ncaution_below = 3.0 # caution\n", "");
    let found = faults(&text);
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "\"gap\""));
    assert!(found.faults[0].reason.to_string().contains("has no limit"), "{found}");
    let text = with("basis = \"Invented.\" # gap\n", "");
    let found = faults(&text);
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "\"gap\""));
    assert!(found.faults[0].reason.to_string().contains("where its limits come from"), "{found}");
}

#[test]
fn evidence_that_holds_for_nothing_is_placed() {
    let zero = "evidence must hold for something";
    for wrong in ["{ flights = 0 }", "{ days = 0 }", "{ hours = 0.0 }", "{ hours = -1.0 }", "{ hours = nan }", "{}"] {
        expect("holds = { flights = 2, days = 5, events = [\"thump\"] }", &format!("holds = {wrong}"), wrong, zero);
    }
    expect(
        "holds = { flights = 2, days = 5, events = [\"thump\"] }",
        "holds = \"a-while\"",
        "\"a-while\"",
        "says not how long",
    );
    let nowhere = "holds = { events = [\"nowhere\"] }";
    let holds = "holds = { flights = 2, days = 5, events = [\"thump\"] }";
    expect(holds, nowhere, "{ events = [\"nowhere\"]", "there is no event 'nowhere'");
    for wrong in ["{ weeks = 2 }", "{ flights = -1 }", "77"] {
        expect(
            "holds = { flights = 2, days = 5, events = [\"thump\"] }",
            &format!("holds = {wrong}"),
            wrong,
            "until-changed, session",
        );
    }
}

#[test]
fn a_job_part_that_is_none_is_placed() {
    expect("job = 2", "job = 0 # wrong", "0 # wrong", "job must be 1 to 10");
    expect("job = 2", "job = 11 # wrong", "11 # wrong", "job must be 1 to 10");
}

// ------------------------------------------------------------------------------------------ kinds

#[test]
fn a_kind_without_what_it_does_or_with_anothers_is_placed() {
    expect(
        "kind = \"confirm\" # look",
        "kind = \"measure\" # look",
        "\"measure\" # look",
        "says not what to measure",
    );
    expect(
        "kind = \"confirm\" # look",
        "kind = \"compute\" # look",
        "\"compute\" # look",
        "says not what to compute",
    );
    expect("kind = \"confirm\" # look", "kind = \"fly\" # look", "\"fly\" # look", "says not what to fly");
    expect(
        "kind = \"measure\" # gap",
        "kind = \"confirm\" # gap",
        "\"gap\"",
        "has a 'measure' but is not of that kind",
    );
    expect("kind = \"compute\"", "kind = \"confirm\"", "\"load\"", "has a 'compute' but is not of that kind");
    expect("kind = \"fly\" # rung-1", "kind = \"confirm\"", "\"rung-1\"", "has a 'fly' but is not of that kind");
}

#[test]
fn a_flight_cannot_come_due_before_flights() {
    // It would stand in its own way for ever.
    let to = "kind = \"fly\" # rung-1\nbefore_flights_from = \"ladder\" # here";
    expect("kind = \"fly\" # rung-1", to, "\"ladder\" # here", "cannot be flown");
}

#[test]
fn a_gate_that_stands_on_no_check_is_placed() {
    let text =
        format!("{WHOLE}\n[[stage]]\nid = \"hollow\"\ntitle = \"a\"\npurpose = \"b\"\njob = 3\ngate = \"c\"\n");
    let found = faults(&text);
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "\"hollow\""));
    assert!(found.faults[0].reason.to_string().contains("no mandatory check"), "{found}");
}

#[test]
fn a_trait_that_leaves_no_choice_is_placed() {
    // With no answer to give, the first gate would wait for ever.
    let text = with("choices = [{ id = \"yes\", label = \"Yes\" }, { id = \"no\", label = \"No\" }]", "choices = []");
    let found = faults(&text);
    assert_eq!((found.faults[0].line, found.faults[0].column), place_of(&text, "\"wheels\""));
    assert!(found.faults[0].reason.to_string().contains("at least two choices"), "{found}");
}

#[test]
fn a_figure_answers_a_question_by_its_value() {
    let asked = "choices = [{ id = \"yes\", label = \"Yes\" }, { id = \"no\", label = \"No\" }]";
    let choices = |yes: &str, no: &str| {
        format!("choices = [{{ id = \"yes\", label = \"Yes\"{yes} }}, {{ id = \"no\", label = \"No\"{no} }}]")
    };
    let answered = |yes: &str, no: &str| with(asked, &format!("{}\nfrom = \"reach\"", choices(yes, no)));
    let plan = Plan::parse("my.toml", &answered(", up_to = 12.0", "")).unwrap();
    let question = plan.question("wheels").unwrap();
    let answers = [11.9, 12.0, 12.1].map(|reach| question.answered_by(reach).unwrap());
    assert_eq!(answers, ["yes", "yes", "no"]);
    assert!(plan.question("tail").unwrap().answered_by(1.0).is_none(), "a person answers that one");
    for text in
        [answered("", ""), answered(", up_to = 12.0", ", up_to = 9.0"), with(asked, &choices(", up_to = 12.0", ""))]
    {
        let found = faults(&text);
        assert!(
            found.faults.iter().all(|fault| fault.reason.to_string().contains("'wheels' is answered by a figure")),
            "{found}"
        );
        assert_eq!(found.faults.len(), 1, "{found}");
        says_the_same_in_german(&found.faults[0].reason);
    }
}

#[test]
fn what_a_reading_is_to_agree_with_is_on_file_in_its_unit() {
    let on_file = |text: &str| with("on_file = \"scales\"", &format!("on_file = \"{text}\""));
    for (text, reason) in [
        ("figure:nowhere", "there is no figure 'nowhere'"),
        ("figure:reach", "'reach' is in mm"),
        ("part:blades", "'part:blades' is nothing on file"),
        ("the scales", "'the scales' is nothing on file"),
    ] {
        let found = faults(&on_file(text));
        assert_eq!(found.faults.len(), 1, "{text}: {found}");
        let said = &found.faults[0].reason;
        assert!(said.to_string().contains(reason), "{said}");
        says_the_same_in_german(said);
    }
}

#[test]
fn a_rung_rests_on_all_that_the_one_below_it_rests_on() {
    let rung = |below: &str| with("id = \"rung-2\"", &format!("id = \"rung-2\"\nrung_above = \"{below}\""));
    let rests_on = |text: &str| {
        let plan = Plan::parse("my.toml", text).unwrap();
        plan.check("rung-2").unwrap().1.rests_on.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    let own = ["part:blades", "setting:trim", "figure:speed", "mass", "packs", "check:rung-1"];
    assert_eq!(rests_on(WHOLE), own);
    assert_eq!(rests_on(&rung("rung-1")), [own.as_slice(), &["setting:gain", "check:track"]].concat());
    // The one below is flown, in the same stage, and before it.
    for below in ["track", "run-up", "rung-2", "nowhere"] {
        let found = faults(&rung(below));
        assert_eq!(found.faults.len(), 1, "{below}: {found}");
        let reason = &found.faults[0].reason;
        assert!(reason.to_string().contains(&format!("no rung is above '{below}'")), "{reason}");
        says_the_same_in_german(reason);
    }
}

#[test]
fn all_faults_are_told_at_once_in_the_order_of_the_file() {
    let text = WHOLE
        .replace("id = \"reach\"", "id = \"Reach\"")
        .replace("step = 0.5", "step = 0.0")
        .replace("job = 2", "job = 12")
        .replace("minutes = 1.5", "minutes = 99.0")
        .replace("temperatures = [\"motor\"] # rung-1", "temperatures = [\"nose\", \"motor\"]");
    let found = faults(&text);
    let lines: Vec<usize> = found.faults.iter().map(|fault| fault.line).collect();
    assert_eq!(lines.len(), 5, "{found}");
    assert!(lines.is_sorted(), "{found}");
    assert_eq!(found.to_string().lines().count(), 5, "one line each, for a person with an editor");
}

#[test]
fn many_stages_that_name_all_before_them_are_still_quick() {
    // Each gate asks those before it; asked anew each time, forty of them would never end.
    let mut text = String::from("format = 1\nid = \"many\"\ntitle = \"a\"\nedition = \"1\"\nnotice = \"b\"\n");
    for stage in 0..40 {
        let after: Vec<String> = (0..stage).map(|earlier| format!("\"s{earlier}\"")).collect();
        text += &format!(
            "[[stage]]\nid = \"s{stage}\"\ntitle = \"a\"\npurpose = \"b\"\njob = 1\ngate = \"c\"\nafter = [{}]\n\
             [[stage.check]]\nid = \"c{stage}\"\ntitle = \"a\"\ndo = \"b\"\nwhy = \"c\"\njudged = \"d\"\nkind = \"confirm\"\n",
            after.join(", ")
        );
    }
    let plan = Plan::parse("many.toml", &text).unwrap();
    let report = liftgate_core::readiness::Ledger::of(&plan, &[]).at(&plan, &common::at_min(0));
    assert_eq!(report.gates.len(), 40);
}

// ------------------------------------------------------------------------------------ the shipped plan

fn shipped() -> Plan {
    Plan::parse("shipped.toml", SHIPPED).unwrap_or_else(|faults| panic!("{faults}"))
}

fn flights(plan: &Plan) -> Vec<(&Check, &Fly)> {
    plan.checks().filter_map(|(_, check)| check.fly().map(|fly| (check, fly))).collect()
}

#[test]
fn it_covers_the_whole_job() {
    let plan = shipped();
    assert!(plan.checks().count() >= 50, "{} checks", plan.checks().count());
    let jobs: BTreeSet<u8> = plan.stages.iter().map(|stage| stage.job).collect();
    assert_eq!(jobs, (1..=10).collect(), "every part of the job has a stage");
    let kind = |kind: &CheckKind| match kind {
        CheckKind::Confirm => "confirm",
        CheckKind::Measure(_) => "measure",
        CheckKind::Compute(_) => "compute",
        CheckKind::Fly(_) => "fly",
    };
    let kinds: BTreeSet<&str> = plan.checks().map(|(_, check)| kind(&check.kind)).collect();
    assert_eq!(kinds, BTreeSet::from(["compute", "confirm", "fly", "measure"]));
    let computed: Vec<Computation> = plan
        .checks()
        .filter_map(|(_, check)| match check.kind {
            CheckKind::Compute(computation) => Some(computation),
            _ => None,
        })
        .collect();
    for wanted in [Computation::SupplyLoad, Computation::SupplyWindow, Computation::CentreOfGravity] {
        assert!(computed.contains(&wanted), "{wanted:?}");
    }
}

#[test]
fn it_says_what_it_defers_to_and_never_calls_anything_airworthy() {
    let notice = shipped().notice.to_lowercase();
    assert!(notice.contains("national") && notice.contains("club") && notice.contains("pilot"), "{notice}");
    for line in SHIPPED.lines().filter(|line| line.to_lowercase().contains("airworthy")) {
        let line = line.to_lowercase();
        assert!(line.contains("nothing here calls") || line.contains("does not call"), "{line}");
    }
}

#[test]
fn it_can_be_read_at_arms_length() {
    let plan = shipped();
    let mut long = Vec::new();
    for stage in &plan.stages {
        let mut chunk = 0;
        for check in &stage.checks {
            chunk = if check.chunk.is_some() { 1 } else { chunk + 1 };
            if chunk > 9 {
                long.push(format!("{}: more than nine checks in one group at {}", stage.id, check.id));
            }
            if check.title.chars().count() > 48 {
                long.push(format!("{}: a title of more than 48 characters", check.id));
            }
            for (what, text) in [("do", &check.instruction), ("why", &check.why), ("judged", &check.judged)] {
                if text.trim().is_empty() || text.chars().count() > 240 {
                    long.push(format!("{}: '{what}' is empty or longer than a glance", check.id));
                }
            }
        }
    }
    for (check, fly) in flights(&plan) {
        let calls: BTreeSet<&String> = fly.knock_off.iter().collect();
        if fly.knock_off.is_empty() || fly.knock_off.len() > 6 || calls.len() != fly.knock_off.len() {
            long.push(format!("{}: one to six different calls", check.id));
        }
        for call in fly.knock_off.iter().filter(|call| call.is_empty() || call.chars().count() > 28) {
            long.push(format!("{}: '{call}' is longer than 28 characters", check.id));
        }
    }
    for caution in &plan.cautions {
        if caution.title.chars().count() > 40 || caution.text.chars().count() > 200 {
            long.push(format!("{}: a caution is read standing", caution.id));
        }
    }
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn cautions_stand_where_work_can_hurt() {
    let plan = shipped();
    for stage in &plan.stages {
        let power = stage.checks.iter().any(|check| {
            check.fly().is_some() || check.rests_on.iter().any(|on| matches!(on, Subject::Supplies | Subject::Packs))
        });
        if power {
            assert!(!stage.cautions.is_empty(), "{}: power or rotors, and no caution", stage.id);
        }
    }
    for (check, fly) in flights(&plan) {
        let (stage, _) = plan.check(&check.id).unwrap();
        let above: BTreeSet<&String> = stage.cautions.iter().chain(&check.cautions).collect();
        assert!(!above.is_empty(), "{}", check.id);
        if fly.motion != Motion::Run {
            assert!(
                check.witness || stage.gate.is_none() || stage.job > 8,
                "{}: a second person at first flights",
                check.id
            );
        }
    }
    // What product.md names, by what the person reads.
    let read =
        plan.cautions.iter().map(|c| format!("{} {}", c.title, c.text).to_lowercase()).collect::<Vec<_>>().join("\n");
    for words in ["blades off", "barrier", "charge", "failsafe", "second person"] {
        assert!(read.contains(words), "no caution speaks of: {words}");
    }
}

#[test]
fn every_rung_has_its_head_speed_figure_and_the_ladder_rises() {
    let plan = shipped();
    let ladder: Vec<(&Check, &Fly)> = flights(&plan)
        .into_iter()
        .filter(|(check, fly)| fly.motion == Motion::Hover && plan.check(&check.id).unwrap().0.job == 7)
        .collect();
    assert!(ladder.len() >= 3, "a ladder has rungs");
    let mut speeds = BTreeSet::new();
    for (check, fly) in &ladder {
        let Limit::Figure { figure, times } = &fly.head_speed_rpm else {
            panic!("{}: a rung's head speed is the aircraft's own", check.id)
        };
        assert!((times - 1.0).abs() < 1e-9, "{}: flown at the figure itself", check.id);
        let figure = plan.figure(figure).unwrap();
        assert_eq!(figure.unit, Unit::RevolutionsPerMinute, "{}", check.id);
        assert!(figure.required, "{}: known before the first gate", check.id);
        assert!(check.rests_on.contains(&Subject::Figure(figure.id.clone())), "{}: rests on its speed", check.id);
        assert!(speeds.insert(figure.id.clone()), "{}: a rung of its own", check.id);
        assert!(check.mandatory && fly.predict, "{}: predict, fly, compare", check.id);
        assert!(!fly.temperatures.is_empty(), "{}: heat is read after it", check.id);
    }
    for (check, fly) in flights(&plan) {
        if let Limit::Figure { figure, .. } = &fly.head_speed_rpm {
            assert_eq!(plan.figure(figure).unwrap().unit, Unit::RevolutionsPerMinute, "{}", check.id);
        }
    }
}

#[test]
fn a_limit_by_a_figure_rests_on_that_figure() {
    let plan = shipped();
    for (_, check) in plan.checks() {
        let CheckKind::Measure(measure) = &check.kind else { continue };
        let limits = &measure.limits;
        for limit in [&limits.stop_below, &limits.caution_below, &limits.caution_above, &limits.stop_above] {
            if let Some(Limit::Figure { figure, .. }) = limit {
                let rests = check.rests_on.contains(&Subject::Figure(figure.clone()));
                assert!(rests, "{}: judged by {figure}, and does not notice when it changes", check.id);
            }
        }
    }
}

#[test]
fn every_measure_says_where_its_limits_come_from() {
    for (_, check) in shipped().checks() {
        if matches!(check.kind, CheckKind::Measure(_) | CheckKind::Fly(_)) {
            let basis = check.basis.as_deref().unwrap_or_default();
            assert!(!basis.trim().is_empty(), "{}", check.id);
        }
    }
    for place in shipped().places {
        assert!(!place.basis.trim().is_empty(), "{}", place.id);
    }
}

#[test]
fn nothing_in_it_is_dead() {
    let plan = shipped();
    let mut used: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    let mut note = |kind: &'static str, id: &str| {
        used.entry(kind).or_default().insert(id.to_owned());
    };
    for stage in &plan.stages {
        stage.cautions.iter().for_each(|id| note("caution", id));
        for check in &stage.checks {
            check.cautions.iter().for_each(|id| note("caution", id));
            check.when.iter().for_each(|(question, answer)| {
                note("trait", question);
                answer.iter().for_each(|answer| note("answer", &format!("{question}={answer}")));
            });
            for subject in &check.rests_on {
                match subject {
                    Subject::Part(id) => note("part", id),
                    Subject::Setting(id) => note("setting", id),
                    Subject::Figure(id) => note("figure", id),
                    _ => {}
                }
            }
            if let CheckKind::Fly(fly) = &check.kind {
                fly.temperatures.iter().for_each(|id| note("place", id));
            }
        }
    }
    let mut dead = Vec::new();
    let mut want = |kind: &'static str, ids: Vec<&String>| {
        for id in ids {
            if !used.get(kind).is_some_and(|used| used.contains(id)) {
                dead.push(format!("{kind} {id}"));
            }
        }
    };
    want("trait", plan.questions.iter().map(|q| &q.id).collect());
    want("part", plan.parts.iter().map(|p| &p.id).collect());
    want("setting", plan.settings.iter().map(|s| &s.id).collect());
    want("caution", plan.cautions.iter().map(|c| &c.id).collect());
    // Every landing offers every place; a regulator is read where there is one, and not every aircraft has one.
    want("place", plan.places.iter().map(|p| &p.id).filter(|id| *id != "regulator").collect());
    assert!(dead.is_empty(), "nothing rests on: {dead:?}");
}

#[test]
fn what_comes_due_before_flights_runs_out_by_itself() {
    // A recurring check that holds until something changes would be asked for once and never again.
    for (_, check) in shipped().checks().filter(|(_, check)| check.before_flights_from.is_some()) {
        let holds = &check.holds;
        let ends = holds.session || holds.flights.is_some() || holds.hours.is_some() || holds.days.is_some();
        let ends = ends || !check.called_by.is_empty();
        assert!(ends, "{}", check.id);
    }
}

// ------------------------------------------------------------------------------------------ the linter

#[test]
fn the_shipped_plan_is_a_good_one_as_far_as_rules_can_tell() {
    let remarks: Vec<String> = liftgate_core::plan::lint(&shipped())
        .iter()
        .map(|r| format!("{:?} {}: {}", r.rule, r.place, r.flaw.words(Locale::default())))
        .collect();
    assert!(remarks.is_empty(), "{}", remarks.join("\n"));
}

#[test]
fn what_the_linter_has_against_a_plan_is_said_in_both_languages() {
    // The small plan is whole and breaks many of the rules of a good one.
    let remarks = liftgate_core::plan::lint(&Plan::parse("small.toml", WHOLE).unwrap());
    let rules: BTreeSet<_> = remarks.iter().map(|remark| remark.rule).collect();
    assert!(rules.len() >= 3, "{remarks:?}");
    for remark in &remarks {
        let (english, german) = (remark.flaw.words(Locale::default()), remark.flaw.words(GERMAN));
        assert_ne!(english, german, "{remark:?}");
        assert!(!german.contains("lint-") && !english.contains("lint-"), "{german}");
    }
}

#[test]
fn reading_grades_are_those_of_the_formula() {
    // 0.39 words/sentences + 11.8 syllables/words - 15.59: Kincaid, Fishburne, Rogers, Chissom, Research Branch Report
    // 8-75, 1975. Words and syllables of these sentences were counted by hand.
    for (text, words, sentences, syllables) in [
        ("The cat sat on the mat.", 6.0, 1.0, 6.0),
        ("This sentence, taken as a reading passage unto itself, is being used to prove a point.", 16.0, 1.0, 24.0),
        ("Unplug it. Turn the drive by hand. Listen.", 8.0, 3.0, 10.0),
        ("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", 13.0, 1.0, 26.0),
    ] {
        let grade = 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
        let counted = liftgate_core::plan::reading_grade(text);
        assert!((counted - grade).abs() < 1.9, "{text}: {counted:.2}, by hand {grade:.2}");
    }
    let easy = liftgate_core::plan::reading_grade("The cat sat on the mat.");
    assert!((easy + 1.45).abs() < 0.01, "{easy}");
    assert_eq!(liftgate_core::plan::reading_grade(" ... "), 0.0);
}

/// What a plan says in place of the small one, as the points that differ.
fn points_of(from: &str, to: &str) -> Vec<String> {
    let small = Plan::parse("small.toml", WHOLE).unwrap();
    let other = Plan::parse("other.toml", &with(from, to)).unwrap();
    small.difference(&other, Locale::default()).into_iter().flat_map(|difference| difference.points).collect()
}

#[test]
fn the_step_and_the_start_of_a_reading_and_the_id_of_an_answer_are_told_as_differences() {
    assert_eq!(points_of("step = 0.5", "step = 0.25"), ["Step: was 0.5, now 0.25"]);
    assert_eq!(points_of("start = 4.0 # of the gap", "start = 2.5"), ["Starts at: was 4, now 2.5"]);
    // The same word under another id: what was answered before counts no more.
    assert_eq!(
        points_of("id = \"no\", label", "id = \"none\", label"),
        ["Ids of the answers: was yes; no, now yes; none"]
    );
}

/// A person reads titles: neither an id of the plan nor a name of the code.
#[test]
fn what_a_check_names_is_told_by_its_title() {
    assert_eq!(
        points_of("compute = \"supply-load\"", "compute = \"hot-day-heat\""),
        ["Kind: was computed, load on each supply, now computed, last hover's heat on the hottest day"]
    );
    let read_on = points_of("read_on = \"rung-1\" # swing", "read_on = \"rung-2\"");
    assert_eq!(read_on, ["Read on the run of: was First rung, now Second rung"]);
    let due = points_of("before_flights_from = \"fit\"", "before_flights_from = \"ladder\"");
    assert_eq!(due, ["Due before flights from: was Fit, now Ladder"]);
    let places = points_of("temperatures = [\"motor\"] # rung-1", "temperatures = [\"motor\", \"battery\"]");
    assert_eq!(places, ["Temperatures: was Motor, now Motor, Battery"]);
    let above = "rests_on = [\"part:blades\", \"setting:trim\", \"figure:speed\"";
    let above = points_of(above, &format!("rung_above = \"rung-1\"\n{above}"));
    // It rests on all that the lower one rests on, too.
    assert_eq!(above.last().unwrap(), "Rung above: was nothing, now First rung");
    let answered = points_of(
        "label = \"Yes\" }, { id = \"no\", label = \"No\" }]",
        "label = \"Yes\", up_to = 25.0 }, { id = \"no\", label = \"No\" }]\nfrom = \"reach\"",
    );
    assert_eq!(answered, ["Answered by: was nothing, now Reach 25"]);
}

#[test]
fn each_computation_has_a_name_in_both_languages() {
    let shipped = shipped();
    let computed = shipped.stages.iter().flat_map(|stage| &stage.checks).filter_map(|check| match &check.kind {
        CheckKind::Compute(computation) => Some((*computation, check)),
        _ => None,
    });
    let mut names = BTreeSet::new();
    for (computation, check) in computed {
        let told = |locale: Locale| {
            let mut without = shipped.clone();
            let stages = without.stages.iter_mut().flat_map(|stage| &mut stage.checks);
            for other in stages.filter(|other| other.id == check.id) {
                other.kind = CheckKind::Confirm;
            }
            let points = without.difference(&shipped, locale).into_iter().flat_map(|difference| difference.points);
            points.last().unwrap()
        };
        let (english, german) = (told(Locale::default()), told(GERMAN));
        let code = format!("{computation:?}");
        assert!(!english.contains(&code) && !german.contains(&code), "{english} {german}");
        assert_ne!(english, german);
        assert!(names.insert(english.clone()), "two of the same name: {english}");
    }
    assert!(names.len() >= 20, "{names:?}");
}

#[test]
fn a_check_named_anew_is_one_difference_and_one_that_moved_is_told_by_its_stage() {
    let small = Plan::parse("small.toml", WHOLE).unwrap();
    let told = |text: &str| -> Vec<(String, String, Vec<String>)> {
        let other = Plan::parse("other.toml", text).unwrap();
        let all = small.difference(&other, Locale::default());
        all.into_iter().map(|difference| (difference.kind, difference.id, difference.points)).collect()
    };
    let renamed = told(&WHOLE.replacen("title = \"Gap\"\ndo", "title = \"Play\"\ndo", 1));
    assert_eq!(renamed.len(), 1, "{renamed:?}");
    assert_eq!(renamed[0].2, ["Title: was Gap, now Play"]);
    let (belt, inspect) = ("[[stage.check]]\nid = \"belt\"", "[[stage.check]]\nid = \"inspect\"");
    let (from, to) = (WHOLE.find(belt).unwrap(), WHOLE.find(inspect).unwrap());
    let end = to + WHOLE[to + 1..].find("[[stage.check]]").unwrap() + 1;
    let moved = told(&format!("{}{}{}{}", &WHOLE[..from], &WHOLE[to..end], &WHOLE[from..to], &WHOLE[end..]));
    assert_eq!(moved.len(), 1, "{moved:?}");
    assert_eq!(moved[0].2, ["Order: was Belt; Inspect, now Inspect; Belt"]);
    let without = told(&format!("{}{}", &WHOLE[..from], &WHOLE[to..]));
    assert_eq!(without.len(), 1, "what is gone moves nothing: {without:?}");
}

/// What stands in quotes behind each of these calls in the sources of the core.
fn named_in_source(calls: &[&str]) -> BTreeSet<Vec<String>> {
    let mut files = Vec::new();
    common::sources(&std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
    let mut named = BTreeSet::new();
    for path in files {
        let text = std::fs::read_to_string(path).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap();
        for call in calls {
            for (at, _) in code.match_indices(call) {
                let behind = &code[at + call.len()..];
                let inside = behind.split(')').next().unwrap();
                if inside.starts_with('"') {
                    named.insert(inside.split('"').skip(1).step_by(2).map(str::to_owned).collect());
                }
            }
        }
    }
    named
}

/// A figure or an answer that a computation asks for by another name than the plan gives it would be missing on every aircraft.
#[test]
fn what_the_core_asks_for_by_name_is_in_the_shipped_plan() {
    let plan = shipped();
    let figures = named_in_source(&["figure(", "whole(", "known("]);
    let figures: BTreeSet<String> = figures.into_iter().filter_map(|words| words.into_iter().next()).collect();
    assert!(figures.len() > 40, "{figures:?}");
    let unknown: Vec<_> = figures.iter().filter(|id| plan.figure(id).is_none()).collect();
    assert!(unknown.is_empty(), "no figures of the plan: {unknown:?}");
    let answers = named_in_source(&["answered("]);
    let answers: Vec<_> = answers.iter().filter(|words| words.len() == 2).collect();
    assert!(!answers.is_empty());
    for words in answers {
        let question = plan.question(&words[0]).unwrap_or_else(|| panic!("{words:?}"));
        assert!(question.choices.iter().any(|(id, _)| *id == words[1]), "{words:?}");
    }
    for kind in ThingKind::ALL {
        if let Some(Subject::Part(part)) = Subject::parse(kind.subject()) {
            assert!(plan.parts.iter().any(|known| known.id == part), "{kind:?} is of {part}");
        }
    }
}
