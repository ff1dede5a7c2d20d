//! The pilot's code: made into a memory-hard hash, and held against one.
//!
//! It keeps a spotter's slip or curiosity on the spotter's side for the length of a flight. It is no encryption: who takes the
//! phone apart, copies its storage, or waits half an hour, gets in. The waits are in [`crate::field::Lock`].

use crate::locale::{Locale, say};
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use argon2::{Algorithm, Argon2, Params, Version};

use super::AppError;

/// Digits of a code, inclusive.
const DIGITS: (usize, usize) = (4, 8);
/// Argon2id with 19 MiB, two passes, one lane: the least that OWASP's Password Storage Cheat Sheet (2023) advises. Salt 16
/// bytes and tag 32 bytes as in RFC 9106, section 4.
const MEMORY_KIB: u32 = 19 * 1_024;
const PASSES: u32 = 2;
const LANES: u32 = 1;
/// The most that a stored hash may ask of this phone: a journal may come from elsewhere, and its costs with it.
const MOST_MEMORY_KIB: u32 = 64 * 1_024;
const MOST_PASSES: u32 = 8;

/// The hash of a new code, as a PHC string.
///
/// # Errors
/// Refused unless it is 4 to 8 digits.
pub(super) fn hash(locale: Locale, code: &str) -> Result<String, AppError> {
    let digits = code.chars().all(|letter| letter.is_ascii_digit());
    if !digits || !(DIGITS.0..=DIGITS.1).contains(&code.len()) {
        let reason = say!(locale, "app-code-digits", least = DIGITS.0, most = DIGITS.1);
        return Err(AppError::field("code", reason));
    }
    let unable = |_| AppError::refused(say!(locale, "app-code-no-random"));
    let params = Params::new(MEMORY_KIB, PASSES, LANES, None)
        .map_err(|_| AppError::refused(say!(locale, "app-code-no-hash")))?;
    let argon2 = Argon2::new(Algorithm::Argon2id, Version::V0x13, params);
    Ok(argon2.hash_password(code.as_bytes()).map_err(unable)?.to_string())
}

/// Whether a code is the one of this hash. One that cannot be read, or asks for more than this phone should give, is nobody's:
/// the wait still opens.
pub(super) fn is_right(code: &str, hash: &str) -> bool {
    let Ok(stored) = PasswordHash::new(hash) else { return false };
    let Ok(params) = Params::try_from(&stored) else { return false };
    let bearable = params.m_cost() <= MOST_MEMORY_KIB && params.t_cost() <= MOST_PASSES;
    bearable && Argon2::default().verify_password(code.as_bytes(), &stored).is_ok()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::{hash, is_right};
    use crate::locale::Locale;

    #[test]
    fn a_code_is_known_again_and_no_other_is() {
        let stored = hash(Locale::default(), "2468").unwrap();
        assert!(stored.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"), "{stored}");
        assert!(is_right("2468", &stored));
        for other in ["2469", "246", "24680", "", "8642"] {
            assert!(!is_right(other, &stored), "{other}");
        }
        assert_ne!(hash(Locale::default(), "2468").unwrap(), stored, "each has a salt of its own");
    }

    #[test]
    fn a_code_is_four_to_eight_digits() {
        for bad in ["", "123", "123456789", "12a4", "12 4", "١٢٣٤"] {
            assert!(hash(Locale::default(), bad).is_err(), "{bad}");
        }
    }

    /// Worked out by the reference implementation in C: `argon2-cffi` from PyPI over libargon2, `hash_secret` with salt
    /// `somesaltsomesalt`.
    #[test]
    fn the_reference_implementation_makes_the_same_hash() {
        let reference = include_str!("../../tests/data/argon2id_reference.txt");
        for line in reference.lines().filter(|line| !line.starts_with('#')) {
            let (code, stored) = line.split_once(' ').unwrap();
            assert!(is_right(code, stored), "{line}");
            assert!(!is_right("0000", stored), "{line}");
        }
    }

    #[test]
    fn a_hash_that_asks_for_too_much_is_nobodys() {
        let greedy = "$argon2id$v=19$m=4194304,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$\
                      GpZ3sK/oH9p7VIiV56G/64Zo/8GaUw434IimaPqxwCo";
        assert!(!is_right("2468", greedy));
        for unreadable in [
            "",
            "2468",
            "$argon2id$",
            "$scrypt$ln=16,r=8,p=1$aM15713r3Xsvxbi31lqr1Q$nFNh2CVHVjNldFVKDHDlm4CbdRSCdEBsjjJxD+iCs5E",
        ] {
            assert!(!is_right("2468", unreadable), "{unreadable}");
        }
    }
}
