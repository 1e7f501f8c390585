//! Moments: read from and written as ISO 8601 in UTC. The clock itself enters through the command line only.

use std::fmt;

use serde::{Deserialize, Serialize};
use thiserror::Error;

const MS_A_DAY: i64 = 86_400_000;
/// Moments lie in the years from 1970 to 9999.
const LAST: i64 = 253_402_300_799_999;

/// Milliseconds since the beginning of 1970, UTC.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Moment(i64);

/// A text that is no moment.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("`{0}` is no moment: write it as in 2026-09-01T16:30:00Z")]
pub struct MomentError(String);

impl Moment {
    /// From milliseconds since 1970; what lies outside of the years that can be written is moved to their ends.
    pub fn from_ms(ms: i64) -> Self {
        Self(ms.clamp(0, LAST))
    }

    /// Milliseconds since 1970.
    pub fn ms(self) -> i64 {
        self.0
    }

    /// The day: `2026-09-01`.
    pub fn day(self) -> String {
        let (year, month, day) = civil(self.0.div_euclid(MS_A_DAY));
        format!("{year:04}-{month:02}-{day:02}")
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let within = self.0.rem_euclid(MS_A_DAY);
        let (seconds, ms) = (within / 1000, within % 1000);
        let (hour, minute, second) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
        write!(f, "{}T{hour:02}:{minute:02}:{second:02}.{ms:03}Z", self.day())
    }
}

impl From<Moment> for String {
    fn from(moment: Moment) -> Self {
        moment.to_string()
    }
}

impl TryFrom<String> for Moment {
    type Error = MomentError;

    fn try_from(text: String) -> Result<Self, MomentError> {
        read(&text)
            .ok_or_else(|| MomentError(text.chars().take(40).map(|c| if c.is_control() { '?' } else { c }).collect()))
    }
}

/// `YYYY-MM-DDThh:mm:ss`, then a fraction or none, then `Z` or `±hh:mm`.
fn read(text: &str) -> Option<Moment> {
    let number = |from: usize, to: usize| {
        let digits = text.get(from..to)?;
        digits.bytes().all(|byte| byte.is_ascii_digit()).then(|| digits.parse::<i64>().ok()).flatten()
    };
    let mark = |at: usize, c: &str| text.get(at..=at) == Some(c);
    if !(mark(4, "-") && mark(7, "-") && mark(10, "T") && mark(13, ":") && mark(16, ":")) {
        return None;
    }
    let (year, month, day) = (number(0, 4)?, number(5, 7)?, number(8, 10)?);
    let (hour, minute, second) = (number(11, 13)?, number(14, 16)?, number(17, 19)?);
    let rest = text.get(19..)?;
    let digits = rest.strip_prefix('.').map_or(0, |rest| rest.bytes().take_while(u8::is_ascii_digit).count());
    let (ms, zone) = if digits == 0 {
        (0, rest)
    } else {
        let shown: String = rest.get(1..=digits)?.chars().chain("00".chars()).take(3).collect();
        (shown.parse::<i64>().ok()?, rest.get(digits + 1..)?)
    };
    let offset_minutes = offset(zone)?;
    let days = days(year, month, day);
    let real = civil(days) == (year, month, day) && hour < 24 && minute < 60 && second < 60;
    let at = days * MS_A_DAY + ((hour * 60 + minute - offset_minutes) * 60 + second) * 1000 + ms;
    (real && (0..=LAST).contains(&at)).then_some(Moment(at))
}

fn offset(zone: &str) -> Option<i64> {
    if zone == "Z" {
        return Some(0);
    }
    let sign = match zone.get(..1)? {
        "+" => 1,
        "-" => -1,
        _ => return None,
    };
    let (hours, minutes) = zone.get(1..)?.split_once(':')?;
    let two = |digits: &str| (digits.len() == 2).then(|| digits.parse::<u8>().ok()).flatten();
    let (hours, minutes) = (two(hours)?, two(minutes)?);
    (hours < 24 && minutes < 60).then_some(sign * (i64::from(hours) * 60 + i64::from(minutes)))
}

/// Days since 1970 of a date in the Gregorian calendar, by counting in spans of 400 years that begin in March.
fn days(year: i64, month: i64, day: i64) -> i64 {
    let year = if month <= 2 { year - 1 } else { year };
    let span = year.div_euclid(400);
    let year_of_span = year.rem_euclid(400);
    let day_of_year = (153 * ((month + 9) % 12) + 2) / 5 + day - 1;
    let day_of_span = year_of_span * 365 + year_of_span / 4 - year_of_span / 100 + day_of_year;
    span * 146_097 + day_of_span - 719_468
}

/// The date of a day since 1970.
fn civil(days: i64) -> (i64, i64, i64) {
    let from_march = days + 719_468;
    let span = from_march.div_euclid(146_097);
    let day_of_span = from_march.rem_euclid(146_097);
    let year_of_span = (day_of_span - day_of_span / 1460 + day_of_span / 36_524 - day_of_span / 146_096) / 365;
    let day_of_year = day_of_span - (365 * year_of_span + year_of_span / 4 - year_of_span / 100);
    let from_march = (5 * day_of_year + 2) / 153;
    let day = day_of_year - (153 * from_march + 2) / 5 + 1;
    let month = if from_march < 10 { from_march + 3 } else { from_march - 9 };
    (year_of_span + span * 400 + i64::from(month <= 2), month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seconds since 1970 as `date -u -d TEXT +%s` of GNU coreutils 8.32 gives them.
    #[test]
    fn moments_are_as_another_program_counts_them() {
        for (text, seconds) in [
            ("1970-01-01T00:00:00Z", 0),
            ("2000-02-29T12:00:00Z", 951_825_600),
            ("2026-09-01T16:30:00Z", 1_788_280_200),
            ("2026-09-01T16:30:00+02:00", 1_788_273_000),
            ("2099-12-31T23:59:59.000Z", 4_102_444_799),
        ] {
            assert_eq!(Moment::try_from(text.to_owned()).map(Moment::ms), Ok(seconds * 1000), "{text}");
        }
    }

    #[test]
    fn what_is_written_is_read_again() {
        for ms in (0..LAST).step_by(7_777_777_777_777).chain([LAST]) {
            let moment = Moment::from_ms(ms);
            assert_eq!(Moment::try_from(moment.to_string()), Ok(moment));
        }
    }

    #[test]
    fn what_is_no_moment_is_refused() {
        for text in [
            "",
            "2026",
            "2026-02-30T00:00:00Z",
            "2026-01-01T24:00:00Z",
            "2026-01-01T00:00:00",
            "2026-01-01T00:00:00+2:00",
            "1969-12-31T23:59:59Z",
            "2026-01-01T00:00:00.é",
            "２026-01-01T00:00:00Z",
            "2026-01-01T00:00:00.Z",
        ] {
            assert!(Moment::try_from(text.to_owned()).is_err(), "{text}");
        }
    }
}
