//! What another plan asks less of: each way by one change of the small plan, and none by the same change the other way round.
#![allow(clippy::unwrap_used)]

use liftgate_core::plan::{Loosened, Looser, Plan};

const TEXT: &str = include_str!("common/small_plan.toml");

fn plan(text: &str) -> Plan {
    Plan::parse("small.toml", text).unwrap_or_else(|faults| panic!("{faults}"))
}

fn with(swaps: &[(&str, &str)]) -> Plan {
    let text = swaps.iter().fold(TEXT.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "the small plan no longer says: {from}");
        text.replacen(from, to, 1)
    });
    plan(&text)
}

fn told(loosened: &[Loosened]) -> Vec<(&str, &[Looser])> {
    loosened.iter().map(|item| (item.id.as_str(), item.ways.as_slice())).collect()
}

#[test]
fn each_way_of_asking_less_is_told_and_its_contrary_is_not() {
    let one = |from, to, id, way| (vec![(from, to)], id, way);
    let ways = [
        one("mandatory = false\n", "", "", Looser::Gone),
        one("stop_below = 2.0 # of the gap", "stop_below = 1.5", "gap", Looser::Limit),
        one("caution_below = 3.0 # caution\n", "", "gap", Looser::Limit),
        one("times = 1.0 }\nagrees_with", "times = 1.1 }\nagrees_with", "weigh", Looser::Limit),
        one("stop_above_c = 90.0", "stop_above_c = 95.0", "motor", Looser::Limit),
        one("within_percent = 20.0", "within_percent = 30.0", "weigh", Looser::ReadsLess),
        one("holds = { days = 20 }", "holds = { days = 21 }", "weigh", Looser::HoldsLonger),
        one("holds = { days = 20 }\n", "", "weigh", Looser::HoldsLonger),
        one("holds = { events = [\"thump\"] }\n", "", "gap", Looser::HoldsLonger),
        one("\"wiring\", ", "", "load", Looser::RestsOnLess),
        one("kind = \"confirm\" # look\n", "kind = \"confirm\"\nmandatory = false\n", "look", Looser::Optional),
        one("witness = true\nrests_on = [\"part:motor\"]", "rests_on = [\"part:motor\"]", "look", Looser::Witness),
        one("minutes = 1.5\n", "minutes = 1.4\n", "rung-1", Looser::Shorter),
        one("temperatures = [\"motor\", \"battery\"]", "temperatures = [\"motor\"]", "rung-2", Looser::ReadsLess),
        one("knock_off = [\"A shake\"]\n", "", "rung-1", Looser::FewerCallOffs),
        one("cautions = [\"rotor\"] # rung-1\n", "", "rung-1", Looser::FewerCautions),
        one("read_on = \"rung-1\" # swing\n", "", "swing", Looser::Order),
        one("why = \"Looks.\"", "why = \"Looks.\"\nwhen = { tail = \"shrouded\" }", "polish", Looser::FewerAircraft),
    ];
    let small = plan(TEXT);
    for (swaps, id, way) in ways {
        let other = with(&swaps);
        let loosened = small.loosened_by(&other);
        if id.is_empty() {
            assert_eq!(told(&loosened), [], "{swaps:?}");
            continue;
        }
        assert_eq!(told(&loosened), [(id, &[way][..])], "{swaps:?}");
        assert_eq!(told(&other.loosened_by(&small)), [], "the other way round: {swaps:?}");
    }
}

#[test]
fn what_is_another_may_lie_anywhere_and_is_told_both_ways() {
    let small = plan(TEXT);
    let by_number = with(&[("stop_above = { figure = \"all-up\", times = 1.0 }", "stop_above = 1.0")]);
    for (was, now) in [(&small, &by_number), (&by_number, &small)] {
        assert_eq!(told(&was.loosened_by(now)), [("weigh", &[Looser::Limit][..])]);
    }
}

#[test]
fn a_check_that_is_gone_is_told_where_it_was_mandatory() {
    let small = plan(TEXT);
    let gone = |id: &str| {
        let from = TEXT.find(&format!("[[stage.check]]\nid = \"{id}\"")).unwrap();
        let rest = &TEXT[from + 1..];
        let to = from + 1 + rest.find("\n[[stage").unwrap() + 1;
        plan(&format!("{}{}", &TEXT[..from], &TEXT[to..]))
    };
    assert_eq!(told(&small.loosened_by(&gone("gap"))), [("gap", &[Looser::Gone][..])]);
    assert_eq!(told(&small.loosened_by(&gone("polish"))), [], "nobody had to");
    assert_eq!(told(&small.loosened_by(&small)), []);
}
