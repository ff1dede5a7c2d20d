//! A hover's predictions beside its readings, and what to make of a disagreement: a finding that is proposed, and may be left.

use super::context::{heading, paragraph, row, still_row};
use super::{Block, Context, Control, Edge, Icon, Place, Record, Tone, check_title};
use crate::computed::{Compared, ComparedReading, Proposal, What, compared};
use crate::engineering::disagreement::{Cause, Lies};
use crate::field::Flight;
use crate::locale::{Locale, say, sentence};
use crate::plan::Plan;
use crate::unit::Unit;

/// What a proposed finding is called: what is wrong, with the cause that explains most of it.
pub(crate) fn proposal_title(locale: Locale, plan: &Plan, flight: &Flight, proposal: &Proposal) -> String {
    let way =
        if proposal.lies == Lies::Above { say!(locale, "log-lies-above") } else { say!(locale, "log-lies-below") };
    let cause = proposal
        .cause
        .as_ref()
        .map_or_else(String::new, |cause| say!(locale, "log-proposal-cause", cause = cause_title(locale, cause)));
    say!(
        locale,
        "log-proposal",
        what = what_words(locale, plan, &proposal.what),
        way = way,
        speed = locale.number(flight.head_speed_rpm, 0),
        cause = cause
    )
}

/// All of it, for the review of a flight.
pub(super) fn blocks(context: &Context<'_>, flight: &Flight) -> Vec<Block> {
    let Some(compared) = compared(context.facts(), flight) else { return Vec::new() };
    if compared.readings.is_empty() {
        return Vec::new();
    }
    let note = say!(
        context.locale,
        "log-flown-in",
        speed = context.locale.number(flight.head_speed_rpm, 0),
        air = context.locale.rounded(flight.air_c, 0, Unit::Celsius)
    );
    let wind = flight.wind.map(|wind| super::wind_words(context.locale, wind));
    let note = std::iter::once(note).chain(wind).collect::<Vec<_>>().join(", ");
    let mut blocks = vec![heading(say!(context.locale, "log-predicted-and-read"), Some(note))];
    // What disagrees stands first, and not below the screen's edge under all that is as expected.
    let mut readings: Vec<&ComparedReading> = compared.readings.iter().collect();
    readings.sort_by_key(|reading| reading.held.lies() == Lies::Within);
    blocks.extend(readings.into_iter().map(|reading| reading_row(context.locale, context.plan, reading)));
    if let Some(proposal) = compared.proposal(flight) {
        blocks.extend(disagreement(context, flight, &compared, &proposal));
    }
    blocks.extend(next(context, &compared));
    blocks
}

fn reading_row(locale: Locale, plan: &Plan, reading: &ComparedReading) -> Block {
    let held = reading.held;
    let digits = usize::from(matches!(reading.unit, Unit::Ampere | Unit::Volt));
    let show = |value: f64| locale.bare(value, digits, reading.unit);
    let (edge, state) = match held.lies() {
        Lies::Within => (Edge::Fresh, say!(locale, "log-as-predicted")),
        Lies::Above => (Edge::Caution, say!(locale, "log-above")),
        Lies::Below => (Edge::Caution, say!(locale, "log-below")),
    };
    let unit = locale.shown(reading.unit).sign;
    let detail = match reading.what {
        What::HeadSpeed => {
            say!(
                locale,
                "log-speed-read",
                measured = show(held.measured),
                unit = unit,
                predicted = show(held.predicted),
                low = show(held.low),
                high = show(held.high)
            )
        }
        _ => say!(
            locale,
            "log-value-read",
            measured = show(held.measured),
            unit = unit,
            predicted = show(held.predicted),
            low = show(held.low),
            high = show(held.high)
        ),
    };
    still_row(edge, state, what_words(locale, plan, &reading.what), Some(detail))
}

fn what_words(locale: Locale, plan: &Plan, what: &What) -> String {
    match what {
        What::Charge => say!(locale, "log-what-charge"),
        What::Power => say!(locale, "log-what-power"),
        What::Current => say!(locale, "log-what-current"),
        What::Voltage => say!(locale, "log-what-voltage"),
        What::HeadSpeed => say!(locale, "log-what-head-speed"),
        What::Place(id) => place_words(plan, id).to_owned(),
    }
}

fn place_words<'a>(plan: &'a Plan, id: &'a str) -> &'a str {
    plan.place(id).map_or(id, |place| place.title.as_str())
}

fn disagreement(context: &Context<'_>, flight: &Flight, compared: &Compared, proposal: &Proposal) -> Vec<Block> {
    let mut blocks = vec![heading(say!(context.locale, "log-why"), Some(say!(context.locale, "log-why-note")))];
    if compared.causes.is_empty() {
        let words = say!(context.locale, "log-nothing-explains");
        blocks.push(paragraph(words, Tone::Plain));
    }
    blocks.extend(compared.causes.iter().map(|cause| {
        still_row(
            Edge::None,
            "",
            sentence(&cause_title(context.locale, cause)),
            Some(cause_words(context.locale, context.plan, cause)),
        )
    }));
    let proposed = proposal_title(context.locale, context.plan, flight, proposal);
    match context.ledger.raised_from(&flight.check, proposal.shown_by, &proposal.outlier(), &proposed) {
        Some(finding) => {
            let title = format!("{}. {}", finding.number, finding.title);
            blocks.push(row(
                Edge::None,
                say!(context.locale, "log-raised"),
                &title,
                None,
                Place::Finding(finding.id),
            ));
        }
        None => {
            let raise =
                Control::new(Record::RaiseProposed(flight.card).into(), say!(context.locale, "log-make-finding"))
                    .icon(Icon::Flag);
            let spoken = say!(context.locale, "log-make-finding-of", title = proposed);
            blocks.push(Block::Choice { label: proposed, options: vec![raise.spoken(spoken)] });
            let words = say!(context.locale, "log-may-leave");
            blocks.push(paragraph(words, Tone::Quiet));
        }
    }
    blocks
}

fn cause_title(locale: Locale, cause: &Cause) -> String {
    match cause {
        Cause::DriveDrag { .. } => say!(locale, "log-cause-drag"),
        Cause::HeadSpeedOff { .. } => say!(locale, "log-cause-speed"),
        Cause::TiredPack { .. } => say!(locale, "log-cause-pack"),
        Cause::LittleAir { .. } => say!(locale, "log-cause-little-air"),
        Cause::HotAir { .. } => say!(locale, "log-cause-hot-air"),
    }
}

fn cause_words(locale: Locale, plan: &Plan, cause: &Cause) -> String {
    let percent = |share: f64| say!(locale, "log-percent", share = locale.number(100.0 * share, 0));
    match cause {
        Cause::DriveDrag { extra } => say!(locale, "log-drag-words", more = percent(*extra)),
        Cause::HeadSpeedOff { off, explains } => {
            let way = if *off > 0.0 { say!(locale, "log-faster") } else { say!(locale, "log-slower") };
            let share = explains.map_or_else(
                || say!(locale, "log-explains-little"),
                |share| say!(locale, "log-explains", share = percent(share)),
            );
            say!(locale, "log-speed-words", off = percent(off.abs()), way = way, share = share)
        }
        Cause::TiredPack { ratio, extra_current } => {
            let ratio = ratio.map(|ratio| say!(locale, "log-pack-ratio", ratio = percent(ratio)));
            let extra = extra_current.map(|extra| say!(locale, "log-pack-extra", extra = percent(extra)));
            let words: Vec<String> = extra.into_iter().chain(ratio).collect();
            say!(locale, "log-pack-words", words = words.join(", "))
        }
        Cause::LittleAir { part, rise_ratio } => {
            let part = place_words(plan, part);
            say!(locale, "log-little-air-words", part = part, rose = percent(*rise_ratio))
        }
        Cause::HotAir { above_k } => {
            say!(locale, "log-hot-air-words", above = locale.rounded(*above_k, 0, Unit::Kelvin))
        }
    }
}

fn next(context: &Context<'_>, compared: &Compared) -> Option<Block> {
    let next = compared.next.as_ref()?;
    let (low, high) = (next.current_a.low, next.current_a.high);
    let from = match next.with_this {
        true => say!(context.locale, "log-next-with", hovers = next.hovers),
        false => say!(context.locale, "log-next-without", hovers = next.hovers),
    };
    let detail = say!(
        context.locale,
        "log-next-detail",
        speed = context.locale.number(next.head_speed_rpm, 0),
        middle = context.locale.number(next.current_a.middle, 1),
        low = context.locale.number(low, 1),
        high = context.locale.number(high, 1),
        from = from
    );
    let title = say!(context.locale, "log-next", check = check_title(context.plan, &next.check));
    Some(row(Edge::None, "", &title, Some(detail), Place::Card(next.check.clone())))
}
