//! Files that travel inside the program, so that it runs from any folder. `src/build.rs` lists the folders; here is the one
//! list of what lies in them.
//!
//! Scenarios and action files have an order that people meet them in: it stands in `assets/order`, an id a line. A file
//! without its line, or a line without its file, does not build.

/// A text file embedded in the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shipped {
    /// Its id on the command line and in other files: its path below its folder, without extension.
    pub id: &'static str,
    /// Where it stands in the source tree.
    pub file: &'static str,
    /// Its text.
    pub text: &'static str,
}

/// A binary file embedded in the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShippedBytes {
    /// Its name without extension.
    pub id: &'static str,
    /// Where it stands in the source tree.
    pub file: &'static str,
    /// What is in it.
    pub bytes: &'static [u8],
}

include!(concat!(env!("OUT_DIR"), "/assets.rs"));

/// The file with this id in one of the lists.
pub fn by_id(list: &[Shipped], id: &str) -> Option<Shipped> {
    list.iter().copied().find(|shipped| shipped.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_list_holds_its_folder_and_says_where_a_file_stands() {
        for list in [SCENARIOS, PROCEDURES, RIGS] {
            let ids: std::collections::BTreeSet<_> = list.iter().map(|shipped| shipped.id).collect();
            assert!(!ids.is_empty() && ids.len() == list.len());
            for shipped in list {
                assert!(shipped.file.ends_with(&format!("{}.ron", shipped.id)), "{}", shipped.file);
                assert_eq!(by_id(list, shipped.id), Some(*shipped));
            }
        }
        assert_eq!(SCENARIOS.first().map(|s| s.id), Some("healthy"), "the course begins with it");
        assert!(TABLES.iter().all(|t| t.file == format!("assets/refrigerants/{}.tbl", t.id)));
    }
}
