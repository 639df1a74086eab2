//! All variants of an enum as an array, so that no list of them is kept by hand.

use strum::VariantArray;

/// All variants in the order of their declaration. `N` is `Self::VARIANTS.len()`; another length does not compile.
pub(crate) const fn all<T: VariantArray + Copy, const N: usize>() -> [T; N] {
    assert!(T::VARIANTS.len() == N);
    match T::VARIANTS.first_chunk::<N>() {
        Some(all) => *all,
        None => panic!("the length was compared"),
    }
}
