use super::card_expected::Planned;
use super::context::{edge, heading, paragraph, row, still_row};
use super::stepper::{Stepper, Steps};
use super::wind_words;
use super::{
    Block, Context, Control, Edge, Edit, Icon, Keyboard, Place, Record, Screen, Tone, Weight, board::blocker_row,
    standing_word,
};
use crate::computed::{Conditions, Endurance, predicted_temperature};
use crate::field::{PACKS_JOINED, is_long_enough, wanted_places, wanted_s};
use crate::form::{CardForm, Refusal, flown_today, last_air_c};
use crate::locale::{Locale, clock, say};
use crate::plan::{Check, CheckKind, Fly, Measure, Motion};
use crate::readiness::{Blocker, PackStand, Standing};
use crate::record::{CheckResult, Wind};
use crate::unit::Unit;

/// Readings offered for one touch, a step apart, and how many of them lie below the last one.
const OFFERED: i32 = 6;
const OFFERED_BELOW: i32 = 2;

/// The card of one flight: everything that is settled before the phone is handed over.
pub(super) fn card(context: &Context<'_>, id: &str) -> Screen {
    let found = context.plan.check(id).and_then(|(stage, check)| check.fly().map(|fly| (stage, check, fly)));
    let Some((stage, check, fly)) = found else { return context.gone("card") };
    let settled = Settled::of(context, check, fly);
    let rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm);
    let tests = rpm.map(|rpm| context.ledger.tested_at(rpm)).unwrap_or_default();
    let blockers = context.ledger.before_flying(context.plan, id, context.now);
    // What is to be done stands first, where it needs no scrolling; what is to be known follows.
    let mut blocks: Vec<Block> = on_the_bench(context.locale, fly).into_iter().chain(restrictions(context)).collect();
    blocks.extend(due(context, &blockers));
    blocks.push(speed_figure(context, fly));
    blocks.extend(super::settings_ledger::two_at_once(context, &tests, |count| {
        say!(context.locale, "card-tests", count = count)
    }));
    blocks.extend(conditions(context, check, &settled));
    blocks.push(heading(say!(context.locale, "card-how"), None));
    blocks.extend(super::steps::steps(&check.instruction, Tone::Plain));
    blocks.push(heading(say!(context.locale, "card-call-off"), None));
    blocks.extend(fly.knock_off.iter().map(|call| paragraph(call.clone(), Tone::Call)));
    blocks.extend(super::card_expected::expected(context, check, fly, &settled.planned(context, rpm)));
    blocks.push(heading(say!(context.locale, "card-limits"), None));
    for place in wanted_places(context.plan, &context.ledger.aircraft, fly) {
        let expected = expected_temperature(context, check, &settled, &place.id);
        let detail = say!(
            context.locale,
            "card-caution-above",
            expected = expected,
            limit = context.locale.quantity(place.caution_above_c, Unit::Celsius)
        );
        blocks.push(still_row(
            Edge::Stop,
            say!(context.locale, "common-stop"),
            say!(
                context.locale,
                "card-above",
                place = place.title,
                limit = context.locale.quantity(place.stop_above_c, Unit::Celsius)
            ),
            Some(detail),
        ));
    }
    blocks.extend(context.cautions(check.cautions.iter().chain(&stage.cautions)));
    if context.ledger.lock.hash.is_none() {
        blocks.push(super::code::code_row(context));
    }
    blocks.extend(last_landing(context, check));
    let why_not = missing(context.locale, check, &settled, blockers.len());
    blocks.extend(super::told_time::without_phone(context, check, settled.planned, why_not.clone()));
    let to = settled.spotter.map_or_else(String::new, |name| say!(context.locale, "card-to", name = name));
    let hand_over =
        Control::primary(Record::HandOver(id.to_owned()).into(), say!(context.locale, "card-hand-over", to = to))
            .icon(Icon::Hand)
            .weight(Weight::Field);
    let hand_over = match why_not {
        None => hand_over.detail(settled.words(context.locale)),
        why_not => hand_over.unless(why_not),
    };
    Screen { foot: vec![hand_over], ..context.screen("card", &check.title, Some(stage.title.clone()), blocks) }
}

/// How warm a place should be after this flight, in words; nothing before a hover after which it was read.
fn expected_temperature(context: &Context<'_>, check: &Check, settled: &Settled<'_>, place: &str) -> String {
    let fly = check.fly().filter(|fly| fly.predict);
    let rpm = fly.and_then(|fly| context.ledger.aircraft.limit(&fly.head_speed_rpm));
    let expected =
        rpm.and_then(|rpm| predicted_temperature(context.facts(), check, place, settled.asked(context, rpm)));
    expected.map_or_else(String::new, |e| {
        let bare = |celsius: f64| context.locale.bare(celsius, 0, Unit::Celsius);
        say!(
            context.locale,
            "card-expected",
            middle = context.locale.rounded(e.middle, 0, Unit::Celsius),
            low = bare(e.low),
            high = bare(e.high)
        )
    })
}

/// What the card says so far: typed or touched, else what the last flight of the day and the packs suggest.
struct Settled<'a> {
    packs: Vec<String>,
    /// Why they are none that this flight can be flown on.
    wrong: Option<String>,
    /// Those of them that are not known to be full.
    not_full: Vec<PackStand>,
    /// Why nobody said yet why it is flown on them.
    why_missing: Option<String>,
    air_c: Option<f64>,
    wind: Option<Wind>,
    minutes: f64,
    /// What the minutes are where nobody changes them.
    planned: f64,
    endurance: Option<Endurance>,
    spotter: Option<&'a str>,
    /// What is wrong with what was typed for the air, the wind, the minutes and the spotter.
    air_wrong: Option<String>,
    wind_wrong: Option<String>,
    minutes_wrong: Option<String>,
    spotter_wrong: Option<String>,
}

impl<'a> Settled<'a> {
    fn of(context: &Context<'a>, check: &'a Check, fly: &'a Fly) -> Settled<'a> {
        let form = CardForm::new(context.form, context.facts(), check, fly, context.now);
        let packs = form.packs();
        let words = |refusal: Option<Refusal>| refusal.map(|refusal| refusal.to_string());
        let air_wrong = words(context.form.text(CardForm::AIR).and_then(|_| form.required_air_c().err()));
        let air_c = form.air_c().filter(|_| air_wrong.is_none());
        let reckoned_c = air_c.unwrap_or_else(|| last_air_c(context.ledger));
        let endurance = form.endurance(&packs, reckoned_c);
        let planned = form.planned_minutes(endurance.as_ref());
        let minutes = form.minutes(&packs, reckoned_c);
        let spotter = form.spotter();
        let wind = form.wind();
        Settled {
            wrong: words(form.required_packs(reckoned_c).err()),
            not_full: form.not_full(),
            why_missing: words(form.why_not_full().err()),
            air_c,
            wind: *wind.as_ref().unwrap_or(&None),
            minutes: *minutes.as_ref().unwrap_or(&planned),
            planned,
            endurance,
            spotter,
            air_wrong,
            wind_wrong: words(wind.err()),
            minutes_wrong: words(minutes.err()),
            spotter_wrong: words(spotter.and_then(|_| form.required_spotter().err())),
            packs,
        }
    }

    fn pack_names(&self) -> String {
        self.packs.join(PACKS_JOINED)
    }

    /// In which conditions it is predicted.
    fn asked(&self, context: &Context<'_>, head_rpm: f64) -> Conditions {
        let air_c = self.air_c.unwrap_or_else(|| last_air_c(context.ledger));
        Conditions { head_rpm, air_c, run_s: Some(self.planned_s() as f64), wind: self.wind }
    }

    /// What it is predicted from.
    fn planned(&self, context: &Context<'_>, head_rpm: Option<f64>) -> Planned {
        Planned {
            asked: head_rpm.map(|rpm| self.asked(context, rpm)),
            usable_mah: self.endurance.as_ref().map(|endurance| endurance.usable_mah),
        }
    }

    fn planned_s(&self) -> i64 {
        (self.minutes * 60.0).round() as i64
    }

    fn words(&self, locale: Locale) -> String {
        let air = self.air_c.map(|air_c| locale.quantity(air_c, Unit::Celsius));
        let wind = self.wind.map(|wind| wind_words(locale, wind));
        let air: String = air.into_iter().chain(wind).map(|words| format!(", {words}")).collect();
        let minutes = locale.plain(self.minutes);
        match self.not_full.is_empty() {
            true => say!(locale, "card-settled", pack = self.pack_names(), minutes = minutes, air = air),
            false => say!(locale, "card-settled-not-full", pack = self.pack_names(), minutes = minutes, air = air),
        }
    }
}

fn speed_figure(context: &Context<'_>, fly: &Fly) -> Block {
    let rpm = context.ledger.aircraft.limit(&fly.head_speed_rpm);
    Block::Figure {
        label: say!(context.locale, "card-head-speed"),
        value: rpm.map_or_else(|| say!(context.locale, "card-not-entered"), |rpm| context.locale.number(rpm, 0)),
        unit: context.locale.shown(Unit::RevolutionsPerMinute).sign.to_owned(),
        note: None,
        edge: Edge::None,
    }
}

/// A run on the bench is said to be one: what holds in the field does not hold there, and the other way round.
fn on_the_bench(locale: Locale, fly: &Fly) -> Option<Block> {
    let block = || Block::Caution { title: say!(locale, "card-bench"), text: say!(locale, "card-bench-how") };
    (fly.motion == Motion::Bench).then(block)
}

fn restrictions(context: &Context<'_>) -> Vec<Block> {
    let carried = context.ledger.findings.iter().filter_map(|finding| {
        let title = finding.restriction()?.to_owned();
        Some(Block::Caution { title, text: say!(context.locale, "card-carried", finding = finding.title) })
    });
    carried.collect()
}

/// What is due before this flight, each where it is done: a look or a reading in one touch, anything else on its own page.
fn due(context: &Context<'_>, blockers: &[Blocker]) -> Vec<Block> {
    if blockers.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading(say!(context.locale, "card-due"), None)];
    blocks.extend(due_cautions(context, blockers));
    for blocker in blockers {
        match tickable(context, blocker) {
            Some((check, standing, options)) => {
                let place = Place::Check(check.id.clone());
                blocks.push(row(edge(standing), standing_word(context.locale, standing), &check.title, None, place));
                blocks.push(Block::Choice { label: String::new(), options });
            }
            None => blocks.push(blocker_row(context, blocker)),
        }
    }
    blocks
}

/// The cautions of what is due, by their titles: in full they stand on each check's page.
fn due_cautions(context: &Context<'_>, blockers: &[Blocker]) -> Option<Block> {
    let checks = blockers.iter().filter_map(|blocker| match blocker {
        Blocker::Check { check, .. } => context.plan.check(check).map(|(_, check)| check),
        _ => None,
    });
    let mut titles: Vec<&str> = Vec::new();
    for id in checks.flat_map(|check| &check.cautions) {
        let title = context.plan.caution(id).map(|caution| caution.title.as_str());
        titles.extend(title.filter(|title| !titles.contains(title)));
    }
    let text = say!(context.locale, "card-cautions-where");
    (!titles.is_empty()).then(|| Block::Caution { title: titles.join(". "), text })
}

/// A due check that one touch records, with what the touch may say.
fn tickable<'a>(context: &Context<'a>, blocker: &'a Blocker) -> Option<(&'a Check, &'a Standing, Vec<Control>)> {
    let Blocker::Check { check, standing } = blocker else { return None };
    let (_, check) = context.plan.check(check)?;
    if !standing.is_one_touch(check) {
        return None;
    }
    let options = match &check.kind {
        CheckKind::Confirm => {
            let command = Record::Tick { check: check.id.clone(), value: None };
            let right = Control::new(command.into(), say!(context.locale, "check-seen-right")).icon(Icon::Tick);
            vec![right.spoken(say!(context.locale, "card-seen-right-spoken", check = check.title))]
        }
        CheckKind::Measure(measure) => readings(context, check, measure)?,
        _ => return None,
    };
    Some((check, standing, options))
}

/// Readings around the last one. A check that was never read has none to start from, and is read on its own page.
fn readings(context: &Context<'_>, check: &Check, measure: &Measure) -> Option<Vec<Control>> {
    let results = context.ledger.results.get(&check.id)?;
    let last = results.iter().rev().find_map(|result| match &result.of {
        crate::readiness::Source::Result(CheckResult::Measured { value, .. }) => Some(*value),
        _ => None,
    })?;
    let (locale, unit) = (context.locale, measure.unit);
    let shown = locale.shown(unit);
    let (step, start) = (locale.step(measure.step, unit), locale.start(last, measure.step, unit));
    let lowest = (0..=OFFERED_BELOW)
        .map(|below| start - f64::from(below) * step)
        .take_while(|value| shown.back(*value) >= measure.low - 1e-9)
        .last()?;
    let values = (0..OFFERED).map(|up| lowest + f64::from(up) * step);
    let offered = values.filter(|value| shown.back(*value) <= measure.high).filter_map(|value| {
        // As it is shown, so that what is recorded is what was touched.
        let value = locale.read(&locale.plain(value), unit)?;
        let words = locale.quantity(value, unit);
        let command = Record::Tick { check: check.id.clone(), value: Some(value) };
        let control = Control::new(command.into(), &words).spoken(format!("{}: {words}", check.title));
        Some(if (shown.out(value) - start).abs() < step / 2.0 {
            control.detail(say!(context.locale, "common-last"))
        } else {
            control
        })
    });
    Some(offered.collect())
}

fn conditions(context: &Context<'_>, check: &Check, settled: &Settled<'_>) -> Vec<Block> {
    let packs: Vec<_> = context.ledger.packs().into_iter().filter(PackStand::may_fly).collect();
    let mut blocks = vec![heading(say!(context.locale, "card-pack-and-air"), None)];
    if packs.is_empty() {
        let place = Place::Thing { kind: crate::record::ThingKind::Pack, name: None };
        blocks.push(row(
            Edge::Missing,
            say!(context.locale, "common-to-enter"),
            say!(context.locale, "packs-none"),
            None,
            place,
        ));
    } else {
        blocks.extend(super::card_packs::chosen(context, check, &packs));
        blocks.extend(super::card_packs::figure_or_packs_wrong(context, &settled.packs));
        blocks.extend(super::card_packs::not_full(context, &settled.not_full));
    }
    blocks.extend(reserve(context.locale, settled));
    blocks.extend(misread_charge(context.locale, settled));
    let minutes = Steps { unit: Unit::Minute, step: 0.5, start: settled.planned };
    let planned = stepper(context, CardForm::MINUTES, say!(context.locale, "card-planned"), minutes);
    blocks.push(planned.flag(settled.minutes_wrong.clone()).block());
    blocks.extend(check.fly().and_then(|fly| minutes_that_count(context, fly, settled)));
    let air = Steps { unit: Unit::Celsius, step: 1.0, start: last_air_c(context.ledger) };
    let air = stepper(context, CardForm::AIR, say!(context.locale, "card-air"), air);
    blocks.push(air.flag(settled.air_wrong.clone()).block());
    blocks.extend(airs(context, settled));
    blocks.extend(super::wind::told(context, check, settled.wind, settled.wind_wrong.as_deref()));
    let label = if check.witness {
        say!(context.locale, "card-spotter-name")
    } else {
        say!(context.locale, "card-spotter-name-if")
    };
    let mut spotter = context.entry(CardForm::SPOTTER, &label, Keyboard::Name, settled.spotter);
    if let Block::Entry { flag, .. } = &mut spotter {
        flag.clone_from(&settled.spotter_wrong);
    }
    blocks.push(spotter);
    blocks.extend(context.people(CardForm::SPOTTER, settled.spotter, say!(context.locale, "card-spotter")));
    blocks
}

/// How long the pack flies until its reserve, against what is planned.
fn reserve(locale: Locale, settled: &Settled<'_>) -> Option<Block> {
    let endurance = settled.endurance.as_ref()?;
    let over = settled.minutes > endurance.minutes + 1e-9;
    let mut note = say!(
        locale,
        "card-reserve",
        percent = locale.number(endurance.reserve_percent, 0),
        current = locale.number(endurance.current_a, 1),
        from = endurance.from
    );
    note.push_str(&say!(locale, "card-reserve-from", charge = endurance.charge_from));
    if over {
        note.push_str(&say!(locale, "card-reserve-over", minutes = locale.plain(settled.minutes)));
    }
    Some(Block::Figure {
        label: say!(locale, "card-reserve-allows"),
        value: locale.number(endurance.minutes, 1),
        unit: locale.shown(Unit::Minute).sign.to_owned(),
        note: Some(note),
        edge: if over { Edge::Caution } else { Edge::None },
    })
}

/// That the time comes from a charge on which nothing can have been flown, one touch from where it is corrected.
fn misread_charge(locale: Locale, settled: &Settled<'_>) -> Option<Block> {
    let endurance = settled.endurance.as_ref()?;
    let current = locale.rounded(endurance.current_a, 1, Unit::Ampere);
    let (title, detail) = (say!(locale, "card-misread", current = current), say!(locale, "card-misread-how"));
    let place = Place::Landing(endurance.misread?);
    Some(row(Edge::Caution, say!(locale, "common-look"), title, Some(detail), place))
}

/// That the run as it is planned is too short to be evidence, or that the pack's reserve leaves no run that is long enough.
fn minutes_that_count(context: &Context<'_>, fly: &Fly, settled: &Settled<'_>) -> Option<Block> {
    let locale = context.locale;
    let allowed_s = settled.endurance.as_ref().map(|endurance| (endurance.full_minutes * 60.0).floor() as i64);
    let wanted_s = wanted_s(fly, allowed_s);
    let counts = |run_s: i64| is_long_enough(run_s.saturating_mul(1_000), wanted_s);
    let words = match () {
        () if counts(settled.planned_s()) => return None,
        () if allowed_s.is_some_and(|allowed_s| !counts(allowed_s)) => {
            say!(locale, "card-pack-too-small", wanted = clock(wanted_s))
        }
        () => say!(locale, "card-too-short", wanted = clock(wanted_s)),
    };
    Some(still_row(Edge::Caution, say!(locale, "common-look"), words, None))
}

/// The last few airs, a touch each.
fn airs(context: &Context<'_>, settled: &Settled<'_>) -> Option<Block> {
    let mut last: Vec<f64> = Vec::new();
    for flight in context.ledger.flights.iter().rev() {
        if !last.contains(&flight.air_c) && last.len() < 3 {
            last.push(flight.air_c);
        }
    }
    let options: Vec<Control> = last
        .into_iter()
        .map(|air_c| {
            let words = context.locale.quantity(air_c, Unit::Celsius);
            let command = Edit::set(CardForm::AIR, context.locale.quantity_bare(air_c, Unit::Celsius));
            let chosen = settled.air_c.is_some_and(|now_c| (now_c - air_c).abs() < 0.005);
            Control::new(command.into(), &words)
                .spoken(say!(context.locale, "card-air-spoken", air = words))
                .chosen(chosen)
        })
        .collect();
    (!options.is_empty()).then(|| Block::Choice { label: say!(context.locale, "card-air-last"), options })
}

fn stepper(context: &Context<'_>, field: &str, label: String, steps: Steps) -> Stepper {
    let stepper = Stepper::of(context, field.to_owned(), label, steps);
    let start = stepper.start_words();
    stepper.hint(say!(context.locale, "common-starts-from", start = start))
}

/// The landing before this card, where another reading or the charge may still be added to it.
fn last_landing(context: &Context<'_>, check: &Check) -> Option<Block> {
    let flight = flown_today(context.ledger, context.now).filter(|flight| flight.check == check.id)?;
    let elapsed_ms = flight.flown_ms()?;
    let title =
        say!(context.locale, "card-landing-after", time = clock(elapsed_ms / 1_000), pack = flight.pack_names());
    let detail = Some(say!(context.locale, "card-landing-add"));
    Some(row(Edge::None, say!(context.locale, "card-last-flight"), &title, detail, Place::Landing(flight.card)))
}

/// Why the card cannot be handed over yet.
fn missing(locale: Locale, check: &Check, settled: &Settled<'_>, blockers: usize) -> Option<String> {
    if blockers > 0 {
        return Some(say!(locale, "card-due-first", count = blockers));
    }
    let wanted = [
        (settled.packs.is_empty(), say!(locale, "card-choose-pack")),
        (settled.wrong.is_some(), settled.wrong.clone().unwrap_or_default()),
        (settled.minutes_wrong.is_some(), say!(locale, "card-minutes-wrong")),
        (settled.air_c.is_none(), say!(locale, "card-enter-air")),
        (settled.wind_wrong.is_some(), say!(locale, "card-wind-wrong")),
        (settled.why_missing.is_some(), say!(locale, "card-say-why-not-full")),
        (
            settled.spotter_wrong.is_some() || (check.witness && settled.spotter.is_none()),
            say!(locale, "card-enter-spotter"),
        ),
    ];
    wanted.iter().find(|(lacking, _)| *lacking).map(|(_, why)| why.clone())
}
