//! The hovers of the ladder: what each was expected to take from its pack, and what it took, as one plot and as a table.

use askama::Template;

use super::labels::Words;
use super::page::{Page, Written};
use crate::drawing::{Anchor, Ink, LabelSize, Picture, Sheet, svg};
use crate::field::Flight;
use crate::locale::say;
use crate::record::Prediction;
use crate::unit::Unit;
use crate::view;

/// Hovers that the plot shows; of more, the last ones. The table has all.
const DRAWN: usize = 24;
/// Room that a head speed's number takes under the plot.
const LABEL_WIDTH: f32 = 30.0;

#[derive(Template)]
#[template(path = "dossier/ladder.html")]
struct Ladder {
    words: Words,
    picture: String,
    rungs: Vec<RungPart>,
}

struct RungPart {
    when: String,
    what: String,
    predicted: String,
    read: String,
    agrees: String,
}

/// A hover that was predicted and read.
struct Rung<'a> {
    flight: &'a Flight,
    expected: Prediction,
    read_mah: f64,
}

impl Rung<'_> {
    fn agrees(&self) -> bool {
        self.expected.holds(self.read_mah)
    }
}

pub(super) fn write(page: &Page<'_>) -> Written {
    let rungs: Vec<Rung<'_>> = page.context.ledger.flights.iter().filter_map(|flight| rung(page, flight)).collect();
    if rungs.is_empty() {
        let picture = format!("<p>{}</p>", say!(page.locale(), "dossier-no-ladder"));
        return Ladder { words: page.words(), picture, rungs: Vec::new() }.render();
    }
    let drawn = &rungs[rungs.len().saturating_sub(DRAWN)..];
    let parts = rungs.iter().map(|rung| part(page, rung)).collect();
    Ladder { words: page.words(), picture: svg(&picture(page, drawn)), rungs: parts }.render()
}

/// A flight on the way up, by the gates of its stages; what is flown in service afterwards is among the flights.
fn rung<'a>(page: &Page<'_>, flight: &'a Flight) -> Option<Rung<'a>> {
    let (stage, _) = page.context.plan.check(&flight.check)?;
    stage.gate.as_ref()?;
    let expected = flight.expected()?;
    let read_mah = flight.landing.as_ref()?.pack_used_mah?;
    Some(Rung { flight, expected, read_mah })
}

fn part(page: &Page<'_>, rung: &Rung<'_>) -> RungPart {
    let locale = page.locale();
    let charge = |mah: f64| locale.rounded(mah, 0, Unit::MilliampereHour);
    let speed = locale.rounded(rung.flight.head_speed_rpm, 0, Unit::RevolutionsPerMinute);
    RungPart {
        when: rung.flight.started.as_ref().map_or_else(String::new, |at| page.when(at)),
        what: format!("{}, {speed}", view::check_title(page.context.plan, &rung.flight.check)),
        predicted: say!(
            locale,
            "dossier-interval",
            middle = charge(rung.expected.used_mah),
            low = locale.number(rung.expected.low_mah, 0),
            high = charge(rung.expected.high_mah)
        ),
        read: charge(rung.read_mah),
        agrees: match (&rung.flight.explained, rung.agrees()) {
            (_, true) => say!(locale, "dossier-agrees"),
            (Some(explained), false) => say!(locale, "dossier-explained", why = explained.why),
            (None, false) => say!(locale, "dossier-differs"),
        },
    }
}

/// Each hover as what was predicted, a line with its ends and its middle, and what was read, a ring: full where the two agree.
fn picture(page: &Page<'_>, rungs: &[Rung<'_>]) -> Picture {
    let locale = page.locale();
    let mut sheet = Sheet::new();
    let (left, right, top, bottom) = (44.0_f32, Sheet::WIDTH - 14.0, 20.0_f32, 170.0_f32);
    let most = rungs.iter().map(|rung| rung.expected.high_mah.max(rung.read_mah)).fold(1.0, f64::max) * 1.05;
    let y = |mah: f64| bottom - (bottom - top) * (mah / most).clamp(0.0, 1.0) as f32;
    let apart = (right - left) / rungs.len() as f32;
    for share in [0.0, 0.5, 1.0] {
        let at = y(most * share);
        sheet.line(Ink::Quiet, 0.5, &[(left, at), (right, at)]);
        sheet.label(left - 4.0, at + 3.0, locale.number(most * share, 0), Ink::Quiet, LabelSize::Small, Anchor::End);
    }
    sheet.label(4.0, 10.0, locale.shown(Unit::MilliampereHour).sign, Ink::Quiet, LabelSize::Small, Anchor::Start);
    let mut labelled = f32::MIN;
    for (index, rung) in rungs.iter().enumerate() {
        let x = left + apart * (index as f32 + 0.5);
        let half = (apart * 0.28).min(7.0);
        sheet.line(Ink::Strong, 1.5, &[(x, y(rung.expected.low_mah)), (x, y(rung.expected.high_mah))]);
        for (mah, half) in
            [(rung.expected.low_mah, half), (rung.expected.used_mah, half * 0.6), (rung.expected.high_mah, half)]
        {
            sheet.line(Ink::Strong, 1.5, &[(x - half, y(mah)), (x + half, y(mah))]);
        }
        let ink = if rung.agrees() { Ink::Action } else { Ink::Limit };
        sheet.ring(ink, x, y(rung.read_mah), 4.0, rung.agrees());
        if x - labelled >= LABEL_WIDTH {
            let speed = locale.number(rung.flight.head_speed_rpm, 0);
            sheet.label(x, bottom + 14.0, speed, Ink::Quiet, LabelSize::Small, Anchor::Middle);
            labelled = x;
        }
    }
    let unit = locale.shown(Unit::RevolutionsPerMinute).sign;
    sheet.label(right, bottom + 27.0, unit, Ink::Quiet, LabelSize::Small, Anchor::End);
    let agree = rungs.iter().filter(|rung| rung.agrees()).count();
    sheet.finish(bottom + 32.0, say!(locale, "dossier-ladder-spoken", count = rungs.len(), agree = agree))
}
