//! Least squares with standard errors that allow for autocorrelated residuals.

use nalgebra::{DMatrix, DVector};

/// A fit of `y = x . coefficients`.
pub(super) struct Fit {
    pub(super) coefficients: Vec<f64>,
    /// Newey and West's standard errors.
    pub(super) errors: Vec<f64>,
    pub(super) freedom: f64,
}

/// Ordinary least squares; standard errors after Newey and West, "A simple, positive semi-definite, heteroskedasticity and
/// autocorrelation consistent covariance matrix", Econometrica 55 (1987), Bartlett's weights up to `lags` and the small-sample factor n / (n - k).
/// `None` where the columns do not determine the coefficients.
pub(super) fn least_squares(rows: &[Vec<f64>], y: &[f64], lags: usize) -> Option<Fit> {
    let (n, k) = (rows.len(), rows.first()?.len());
    if n <= k || y.len() != n {
        return None;
    }
    // Columns of like size keep the normal matrix well conditioned.
    let scale: Vec<f64> = (0..k).map(|j| rows.iter().map(|row| row[j].abs()).fold(0.0, f64::max)).collect();
    if scale.iter().any(|s| *s == 0.0 || !s.is_finite()) {
        return None;
    }
    let x = DMatrix::from_fn(n, k, |i, j| rows[i][j] / scale[j]);
    let y = DVector::from_column_slice(y);
    let normal = x.transpose() * &x;
    let inverse = normal.clone().cholesky()?.inverse();
    let coefficients = &inverse * (x.transpose() * &y);
    let residuals = y - &x * &coefficients;
    // Each row's pull on the coefficients.
    let pulls = DMatrix::from_fn(n, k, |i, j| x[(i, j)] * residuals[i]);
    let mut meat = pulls.transpose() * &pulls;
    for lag in 1..=lags.min(n - 1) {
        let weight = 1.0 - lag as f64 / (lags as f64 + 1.0);
        let cross = pulls.rows(lag, n - lag).transpose() * pulls.rows(0, n - lag);
        meat += (&cross + cross.transpose()) * weight;
    }
    let covariance = &inverse * meat * &inverse * (n as f64 / (n - k) as f64);
    let fit = Fit {
        coefficients: (0..k).map(|j| coefficients[j] / scale[j]).collect(),
        errors: (0..k).map(|j| covariance[(j, j)].max(0.0).sqrt() / scale[j]).collect(),
        freedom: (n - k) as f64,
    };
    fit.coefficients.iter().chain(&fit.errors).all(|v| v.is_finite()).then_some(fit)
}

/// Lags after Newey and West (1994): `4 (n / 100)^(2/9)`.
pub(super) fn usual_lags(n: usize) -> usize {
    (4.0 * (n as f64 / 100.0).powf(2.0 / 9.0)).floor() as usize
}
