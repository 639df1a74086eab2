//! A short number that stands for many bytes: equal bytes give equal numbers on any machine, and one byte changed gives
//! another number. No signature: whoever can run this program can make one.

use std::io;

use serde::Serialize;

/// FNV-1a, 64 bits (Fowler, Noll, Vo): offset basis and prime.
const FNV: (u64, u64) = (0xcbf2_9ce4_8422_2325, 0x0100_0000_01b3);

/// Takes bytes in, one after the other.
#[derive(Clone, Copy, Debug)]
pub struct Fingerprint(u64);

impl Default for Fingerprint {
    fn default() -> Self {
        Self(FNV.0)
    }
}

impl io::Write for Fingerprint {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0 = bytes.iter().fold(self.0, |hash, &b| (hash ^ u64::from(b)).wrapping_mul(FNV.1));
        Ok(bytes.len())
    }
    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Something cannot be written down as text, so it has no fingerprint.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no fingerprint: {0}")]
pub struct FingerprintError(String);

/// The fingerprint of a value, by its text in the shortest exact decimals, so that it depends on values and names, not on the
/// layout of memory.
///
/// # Errors
/// The value has no form as text.
pub fn fingerprint(value: &impl Serialize) -> Result<u64, FingerprintError> {
    let mut print = Fingerprint::default();
    serde_json::to_writer(&mut print, value).map_err(|e| FingerprintError(e.to_string()))?;
    Ok(print.0)
}

/// A fingerprint as it is printed and recorded: 16 hexadecimal digits.
pub fn hex(print: u64) -> String {
    format!("{print:016x}")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;
    use std::io::Write;

    use super::*;

    /// Test vectors of FNV-1a, 64 bits: G. Fowler, L. C. Noll, K.-P. Vo, D. Eastlake, "The FNV Non-Cryptographic Hash
    /// Algorithm", IETF draft, appendix of test values.
    #[test]
    fn it_is_the_published_hash() {
        for (text, print) in
            [("", 0xcbf2_9ce4_8422_2325), ("a", 0xaf63_dc4c_8601_ec8c), ("foobar", 0x8594_4171_f739_67e8)]
        {
            let mut hasher = Fingerprint::default();
            hasher.write_all(text.as_bytes()).unwrap();
            assert_eq!(hasher.0, print, "{text:?}");
        }
    }

    #[test]
    fn what_has_no_text_is_an_error_and_no_number() {
        assert!(fingerprint(&BTreeMap::from([((1, 2), 3)])).is_err());
        assert_ne!(fingerprint(&0.1_f64), fingerprint(&(0.1_f64 + 1e-17 + 2e-17)));
        assert_ne!(fingerprint(&[1, 2]), fingerprint(&[2, 1]));
    }
}
