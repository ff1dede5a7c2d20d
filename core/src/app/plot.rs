//! The plot in view, moved by fingers and by buttons.

use super::AppError;
use super::in_view::open;
use super::open_log::OpenLog;
use super::shared::Shared;
use crate::form::Drafts;
use crate::locale::{Locale, say};
use crate::telemetry::SightStep;
use crate::view::{self, Block, Place, PlotFingers, PlotPhase, PlotView};

fn no_plot(locale: Locale) -> AppError {
    AppError::refused(say!(locale, "log-no-plot"))
}

/// What of the plot is in view at a place, with the log that it is of.
fn in_view<'a>(shared: &'a Shared, place: &Place) -> Result<(PlotView, &'a OpenLog), AppError> {
    let open = shared.open_log.as_ref().ok_or_else(|| no_plot(shared.locale()))?;
    if let Some((_, view)) = open.moving.as_ref().filter(|(of, _)| of == place) {
        return Ok((*view, open));
    }
    let drafts = shared.drafts(place)?;
    Ok((view::plot_view(&shared.ledger.logs, place, Drafts::new(&drafts, shared.locale()), &open.recording), open))
}

fn keep(shared: &mut Shared, place: &Place, view: &PlotView) -> Result<(), AppError> {
    let fields: Vec<_> = view.fields().into_iter().map(|(field, text)| (field.to_owned(), text)).collect();
    shared.keep_drafts(place, &fields)?;
    if let Some(open) = shared.open_log.as_mut() {
        open.moving = None;
    }
    Ok(())
}

/// Moves what is in view of the plot by a button.
pub(super) fn step(shared: &mut Shared, place: &Place, step: SightStep) -> Result<(), AppError> {
    open(shared, place)?;
    let (view, open) = in_view(shared, place)?;
    let next = view.stepped(&open.recording, step);
    keep(shared, place, &next)
}

/// Brings a channel of the plot to the top.
pub(super) fn show_channel(shared: &mut Shared, place: &Place, channel: u32) -> Result<(), AppError> {
    open(shared, place)?;
    let (view, _) = in_view(shared, place)?;
    keep(shared, place, &PlotView { channel: Some(channel), ..view })
}

/// Moves the plot with the fingers on it, and draws it anew.
pub(super) fn fingers(shared: &mut Shared, place: &Place, fingers: &PlotFingers) -> Result<Block, AppError> {
    open(shared, place)?;
    let (view, open) = in_view(shared, place)?;
    let next = view.touched(&open.recording, fingers);
    if matches!(fingers.phase, PlotPhase::Up | PlotPhase::Tap) {
        keep(shared, place, &next)?;
    } else if let Some(open) = shared.open_log.as_mut() {
        open.moving = Some((place.clone(), next));
    }
    let open = shared.open_log.as_ref().ok_or_else(|| no_plot(shared.locale()))?;
    Ok(view::plot_block(shared.locale(), &open.recording, &open.limits, &next))
}
