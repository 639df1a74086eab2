//! The day of a report. Only commands may ask for it: nothing in the core knows a date.

use std::time::{SystemTime, UNIX_EPOCH};

/// Today in UTC, as `2026-11-25`.
pub fn today() -> String {
    #[expect(clippy::disallowed_methods, reason = "a report states its day; no result depends on it")]
    let seconds = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |d| d.as_secs());
    day(seconds / 86_400)
}

/// The date of a day counted from 1970-01-01, in the Gregorian calendar.
fn day(mut days: u64) -> String {
    let leap = |y: u64| y.is_multiple_of(4) && (!y.is_multiple_of(100) || y.is_multiple_of(400));
    let mut year = 1970;
    while days >= 365 + u64::from(leap(year)) && year < 9999 {
        days -= 365 + u64::from(leap(year));
        year += 1;
    }
    let lengths = [31, 28 + u64::from(leap(year)), 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    let mut month = 1;
    for length in lengths {
        if days < length {
            break;
        }
        days -= length;
        month += 1;
    }
    format!("{year}-{month:02}-{:02}", days + 1)
}

#[cfg(test)]
mod tests {
    use super::day;

    #[test]
    fn days_become_dates() {
        assert_eq!(day(0), "1970-01-01");
        assert_eq!(day(58), "1970-02-28");
        assert_eq!(day(11_016), "2000-02-29");
        assert_eq!(day(20_782), "2026-11-25");
    }
}
