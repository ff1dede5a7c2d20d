//! What takes longer than a touch: a file that comes in or goes out, a log that is read. How far it is, and the way to stop it.

use super::context::paragraph;
use super::under_way::{UnderWay, UnderWayWith};
use super::{Block, Context, Control, Edge, Go, Icon, Record, Screen, Tone, Weight, Work};
use crate::locale::{Locale, say};

/// What a shell does to go on with it.
pub(super) fn work(context: &Context<'_>) -> Option<Work> {
    context.under_way.as_ref().map(|under_way| match under_way.what {
        UnderWayWith::Arriving { .. } => Work::Feed,
        UnderWayWith::Leaving { .. } => Work::Write,
        UnderWayWith::Unpacking { .. } => Work::Touch { token: Go::StepOn.into() },
        UnderWayWith::Attaching { .. } | UnderWayWith::Plot => Work::Touch { token: Record::ImportOn.into() },
    })
}

/// The whole screen, where there is nothing else to look at until it is done.
pub(super) fn screen(context: &Context<'_>) -> Option<Screen> {
    let under_way = context.under_way.as_ref()?;
    let name = match &under_way.what {
        UnderWayWith::Arriving { name }
        | UnderWayWith::Attaching { name }
        | UnderWayWith::Unpacking { name }
        | UnderWayWith::Leaving { name, .. } => name,
        UnderWayWith::Plot => return None,
    };
    let stopping = match &under_way.what {
        UnderWayWith::Leaving { .. } => say!(context.locale, "reading-leaving-stopped"),
        UnderWayWith::Unpacking { .. } => say!(context.locale, "backup-nothing-changed"),
        _ => say!(context.locale, "reading-nothing-recorded"),
    };
    let stop = Control::primary(Go::StopWork.into(), say!(context.locale, "reading-stop")).icon(Icon::Stop);
    let back = Control::new(Go::StopWork.into(), say!(context.locale, "common-back"))
        .icon(Icon::Back)
        .weight(Weight::Quiet)
        .spoken(say!(context.locale, "reading-back-spoken"));
    let nothing = paragraph(stopping, Tone::Quiet);
    let screen = context.screen("reading", name.as_str(), None, vec![progress(context.locale, under_way), nothing]);
    Some(Screen { back: Some(back), foot: vec![stop], work: work(context), ..screen })
}

/// What stands where the plot will be.
pub(super) fn instead_of_plot(context: &Context<'_>) -> Vec<Block> {
    if let Some(under_way) = &context.under_way {
        let stop = Control::new(Go::StopWork.into(), say!(context.locale, "reading-stop-plot"));
        return vec![progress(context.locale, under_way), touch_row(stop)];
    }
    if context.log_was_stopped {
        let again = Control::new(Go::ReadLogAgain.into(), say!(context.locale, "reading-plot"))
            .detail(say!(context.locale, "reading-plot-note"));
        return vec![touch_row(again)];
    }
    vec![paragraph(say!(context.locale, "log-no-file"), Tone::Quiet)]
}

fn touch_row(control: Control) -> Block {
    let (title, detail) = (control.label.clone(), control.detail.clone());
    Block::Row { edge: Edge::None, state: String::new(), title, detail, control: Some(control) }
}

/// How far it is: a share where the length is known, else what is done.
fn progress(locale: Locale, under_way: &UnderWay) -> Block {
    let label = match under_way.what {
        UnderWayWith::Arriving { .. } => say!(locale, "reading-takes-in"),
        UnderWayWith::Leaving { .. } => say!(locale, "reading-writes"),
        UnderWayWith::Unpacking { .. } => say!(locale, "reading-unpacks"),
        UnderWayWith::Attaching { .. } | UnderWayWith::Plot => say!(locale, "reading-reads"),
    };
    let (done, of) = (under_way.bytes, under_way.of.filter(|of| *of > 0));
    let (value, unit) = match of {
        Some(of) => (locale.number((100.0 * done as f64 / of as f64).floor().min(100.0), 0), "%"),
        None => (locale.megabytes(done), "MB"),
    };
    let size = match &under_way.what {
        UnderWayWith::Leaving { written, .. } => {
            Some(say!(locale, "reading-written", written = locale.megabytes(*written)))
        }
        UnderWayWith::Unpacking { .. } => None,
        _ => of.map(|of| say!(locale, "reading-size", done = locale.megabytes(done), of = locale.megabytes(of))),
    };
    let rows = under_way.rows.map(|rows| say!(locale, "reading-rows", rows = rows));
    let note: Vec<String> = size.into_iter().chain(rows).collect();
    Block::Figure {
        label,
        value,
        unit: unit.to_owned(),
        note: Some(note.join("; ")).filter(|note| !note.is_empty()),
        edge: Edge::None,
    }
}
