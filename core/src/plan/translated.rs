//! The shipped plan in other languages.

use toml::{Table, Value};

use super::check::{Check, CheckKind};
use super::model::Plan;
use super::shipped::SHIPPED;
use crate::locale::Language;

/// The German texts of the shipped plan, laid over it where a person reads it.
const GERMAN: &str = include_str!("../../plans/large-electric-helicopter.de.toml");

impl Plan {
    /// The plan as a person reads it in a language. The shipped plan has its texts in each; a plan of the person's own stays
    /// as it was written. Only texts differ: what is asked, its limits and its references are the same plan's.
    pub fn translated(&self, language: Language) -> Plan {
        let mut plan = self.clone();
        if language != Language::German || !is_shipped(self) {
            return plan;
        }
        if let Ok(texts) = GERMAN.parse::<Table>() {
            lay_over(&mut plan, &texts);
        }
        plan
    }
}

/// Whether it is the shipped plan, text for text: one that a person edited keeps the person's words.
fn is_shipped(plan: &Plan) -> bool {
    Plan::parse("the shipped plan", SHIPPED).is_ok_and(|shipped| shipped == *plan)
}

fn lay_over(plan: &mut Plan, texts: &Table) {
    let entry = |kind: &str, id: &str| texts.get(kind).and_then(|kind| kind.get(id)).and_then(Value::as_table);
    if let Some(own) = texts.get("plan_texts").and_then(Value::as_table) {
        put(&mut plan.title, own, "title");
        put(&mut plan.notice, own, "notice");
    }
    for question in &mut plan.questions {
        let Some(of) = entry("trait", &question.id) else { continue };
        put(&mut question.text, of, "question");
        let Some(choices) = of.get("choices").and_then(Value::as_table) else { continue };
        question.choices.iter_mut().for_each(|(id, label)| put(label, choices, id));
    }
    for figure in &mut plan.figures {
        let Some(of) = entry("figure", &figure.id) else { continue };
        put(&mut figure.title, of, "title");
        put_some(&mut figure.why, of, "why");
    }
    for part in &mut plan.parts {
        entry("part", &part.id).into_iter().for_each(|of| put(&mut part.title, of, "title"));
    }
    for setting in &mut plan.settings {
        entry("setting", &setting.id).into_iter().for_each(|of| put(&mut setting.title, of, "title"));
    }
    for place in &mut plan.places {
        let Some(of) = entry("place", &place.id) else { continue };
        put(&mut place.title, of, "title");
        put(&mut place.basis, of, "basis");
    }
    for event in &mut plan.events {
        let Some(of) = entry("event", &event.id) else { continue };
        put(&mut event.title, of, "title");
        put(&mut event.text, of, "text");
    }
    for caution in &mut plan.cautions {
        let Some(of) = entry("caution", &caution.id) else { continue };
        put(&mut caution.title, of, "title");
        put(&mut caution.text, of, "text");
    }
    for stage in &mut plan.stages {
        if let Some(of) = entry("stage", &stage.id) {
            put(&mut stage.title, of, "title");
            put(&mut stage.purpose, of, "purpose");
            put_some(&mut stage.gate, of, "gate");
        }
        for check in &mut stage.checks {
            entry("check", &check.id).into_iter().for_each(|of| lay_over_check(check, of));
        }
    }
}

fn lay_over_check(check: &mut Check, of: &Table) {
    put(&mut check.title, of, "title");
    put(&mut check.instruction, of, "do");
    put(&mut check.why, of, "why");
    put(&mut check.judged, of, "judged");
    put_some(&mut check.chunk, of, "chunk");
    put_some(&mut check.basis, of, "basis");
    if let CheckKind::Fly(fly) = &mut check.kind {
        let calls = of.get("knock_off").and_then(Value::as_array);
        for (call, text) in fly.knock_off.iter_mut().zip(calls.into_iter().flatten()) {
            text.as_str().into_iter().for_each(|text| *call = text.to_owned());
        }
    }
}

fn put(text: &mut String, texts: &Table, field: &str) {
    if let Some(other) = texts.get(field).and_then(Value::as_str) {
        *text = other.to_owned();
    }
}

fn put_some(text: &mut Option<String>, texts: &Table, field: &str) {
    text.iter_mut().for_each(|text| put(text, texts, field));
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// Every text of a plan that a person reads, with where it stands.
    fn texts(plan: &Plan) -> Vec<(String, String)> {
        let mut texts = vec![("title".to_owned(), plan.title.clone()), ("notice".to_owned(), plan.notice.clone())];
        let mut add = |place: &str, text: &str| texts.push((place.to_owned(), text.to_owned()));
        for q in &plan.questions {
            add(&q.id, &q.text);
            q.choices.iter().for_each(|(id, label)| add(&format!("{} {id}", q.id), label));
        }
        for f in &plan.figures {
            add(&format!("figure {}", f.id), &f.title);
            f.why.iter().for_each(|why| add(&format!("figure {} why", f.id), why));
        }
        plan.parts.iter().for_each(|p| add(&format!("part {}", p.id), &p.title));
        plan.settings.iter().for_each(|s| add(&format!("setting {}", s.id), &s.title));
        for p in &plan.places {
            add(&format!("place {}", p.id), &p.title);
            add(&format!("place {} basis", p.id), &p.basis);
        }
        for e in &plan.events {
            add(&format!("event {}", e.id), &e.title);
            add(&format!("event {} text", e.id), &e.text);
        }
        for c in &plan.cautions {
            add(&format!("caution {}", c.id), &c.title);
            add(&format!("caution {} text", c.id), &c.text);
        }
        for stage in &plan.stages {
            add(&format!("stage {}", stage.id), &stage.title);
            add(&format!("stage {} purpose", stage.id), &stage.purpose);
            stage.gate.iter().for_each(|gate| add(&format!("stage {} gate", stage.id), gate));
            for check in &stage.checks {
                let place = |field: &str| format!("check {} {field}", check.id);
                add(&place("title"), &check.title);
                add(&place("do"), &check.instruction);
                add(&place("why"), &check.why);
                add(&place("judged"), &check.judged);
                check.chunk.iter().for_each(|chunk| add(&place("chunk"), chunk));
                check.basis.iter().for_each(|basis| add(&place("basis"), basis));
                if let CheckKind::Fly(fly) = &check.kind {
                    fly.knock_off.iter().for_each(|call| add(&place("knock_off"), call));
                }
            }
        }
        texts
    }

    #[test]
    fn every_text_of_the_shipped_plan_has_its_german_one_and_nothing_else_differs() {
        let shipped = Plan::parse("the shipped plan", SHIPPED).unwrap();
        let german = shipped.translated(Language::German);
        let head = GERMAN.parse::<Table>().unwrap();
        assert_eq!(head["plan"].as_str(), Some(shipped.id.as_str()));
        assert_eq!(head["edition"].as_str(), Some(shipped.edition.as_str()));
        let (english, other) = (texts(&shipped), texts(&german));
        assert_eq!(english.len(), other.len());
        // The trade writes these the same in both languages.
        let same = ["Servo", "Servos", "Failsafe", "Motor", "Governor", "Start"];
        for ((place, english), (_, german)) in english.iter().zip(&other) {
            assert!(english != german || same.contains(&english.as_str()), "{place}: '{english}' has no German text");
        }
        // What stays behind when the texts are taken away is the same plan.
        assert_eq!(german.stages.len(), shipped.stages.len());
        for ((_, one), (_, two)) in shipped.checks().zip(german.checks()) {
            assert_eq!((&one.id, &one.rests_on, &one.holds), (&two.id, &two.rests_on, &two.holds));
        }
    }

    #[test]
    fn a_plan_that_a_person_edited_keeps_the_persons_words() {
        let own = SHIPPED.replacen("title = \"", "title = \"My ", 1);
        let own = Plan::parse("own", &own).unwrap();
        assert_eq!(own.translated(Language::German), own);
    }

    #[test]
    fn the_german_texts_name_nothing_that_the_plan_has_not() {
        let shipped = Plan::parse("the shipped plan", SHIPPED).unwrap();
        let texts = GERMAN.parse::<Table>().unwrap();
        let known = |kind: &str, id: &str| match kind {
            "trait" => shipped.question(id).is_some(),
            "figure" => shipped.figure(id).is_some(),
            "part" => shipped.parts.iter().any(|part| part.id == id),
            "setting" => shipped.setting(id).is_some(),
            "place" => shipped.place(id).is_some(),
            "event" => shipped.event(id).is_some(),
            "caution" => shipped.caution(id).is_some(),
            "stage" => shipped.stage(id).is_some(),
            "check" => shipped.check(id).is_some(),
            _ => false,
        };
        for (kind, of) in texts.iter().filter(|(kind, _)| !["plan", "edition", "plan_texts"].contains(&kind.as_str()))
        {
            of.as_table().unwrap().keys().for_each(|id| assert!(known(kind, id), "[{kind}.{id}] lies over nothing"));
        }
    }
}
