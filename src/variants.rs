//! All variants of an enum as an array, so that no list of them is kept by hand, and one entry for each of them.

use core::array;
use core::marker::PhantomData;
use core::ops::{Index, IndexMut};

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use strum::VariantArray;

/// All variants in the order of their declaration. `N` is `Self::VARIANTS.len()`; another length does not compile.
pub(crate) const fn all<T: VariantArray + Copy, const N: usize>() -> [T; N] {
    assert!(T::VARIANTS.len() == N);
    match T::VARIANTS.first_chunk::<N>() {
        Some(all) => *all,
        None => panic!("the length was compared"),
    }
}

/// One entry for each variant of an enum, in the order of their declaration; in files and hashes it is a plain list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PerVariant<K, T, const N: usize>([T; N], PhantomData<K>);

impl<K: VariantArray + Copy, T, const N: usize> PerVariant<K, T, N> {
    /// What `of` says of each.
    pub fn new(mut of: impl FnMut(K) -> T) -> Self {
        Self(all::<K, N>().map(&mut of), PhantomData)
    }
    /// Each variant with its entry.
    pub fn iter(&self) -> impl Iterator<Item = (K, &T)> {
        all::<K, N>().into_iter().zip(&self.0)
    }
    /// The entries alone.
    pub fn values(&self) -> impl Iterator<Item = &T> {
        self.0.iter()
    }
}

impl<K, T: Default, const N: usize> Default for PerVariant<K, T, N> {
    fn default() -> Self {
        Self(array::from_fn(|_| T::default()), PhantomData)
    }
}

fn place<K: VariantArray + PartialEq>(variant: &K) -> usize {
    K::VARIANTS.iter().position(|other| other == variant).expect("every variant is among all of them")
}

impl<K: VariantArray + PartialEq, T, const N: usize> Index<K> for PerVariant<K, T, N> {
    type Output = T;
    fn index(&self, variant: K) -> &T {
        &self.0[place(&variant)]
    }
}

impl<K: VariantArray + PartialEq, T, const N: usize> IndexMut<K> for PerVariant<K, T, N> {
    fn index_mut(&mut self, variant: K) -> &mut T {
        &mut self.0[place(&variant)]
    }
}

impl<K, T: Serialize, const N: usize> Serialize for PerVariant<K, T, N> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_seq(&self.0)
    }
}

impl<'de, K, T: Deserialize<'de>, const N: usize> Deserialize<'de> for PerVariant<K, T, N> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let entries = Vec::<T>::deserialize(deserializer)?;
        let found = entries.len();
        let wrong = |_| serde::de::Error::invalid_length(found, &"one entry for each variant");
        Ok(Self(entries.try_into().map_err(wrong)?, PhantomData))
    }
}
