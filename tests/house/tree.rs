//! The files of `src` as the compiler sees them: which module each is, what it defines, what it brings in.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

use proc_macro2::{TokenStream, TokenTree};
use syn::{Attribute, Item, UseTree};

/// The folder of the package.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The room of a file: the first folder under `src`, or the file itself.
pub fn room_of(path: &str) -> &str {
    let inside = path.trim_start_matches("src/");
    inside.split('/').next().unwrap_or(inside).trim_end_matches(".rs")
}

/// A path of names, such as `plant::water`; the crate itself is empty.
pub type Names = Vec<String>;

/// One module.
#[derive(Default)]
pub struct Module {
    /// Its file.
    pub file: usize,
    /// Things with a name of their own in it.
    pub defines: BTreeSet<String>,
    /// What `use` brings in: name here and path as written.
    pub brings: BTreeMap<String, Names>,
    /// Paths whose every name is brought in.
    pub globs: Vec<Names>,
}

/// One file.
pub struct File {
    /// From the package's folder on.
    pub path: String,
    /// The module that it is.
    pub module: Names,
    /// What stands in it.
    pub items: Vec<Item>,
    /// Compiled for tests only.
    pub in_tests: bool,
}

/// All of them.
pub struct Tree {
    /// By number.
    pub files: Vec<File>,
    /// By path of names.
    pub modules: BTreeMap<Names, Module>,
    /// Files on disk that no `mod` leads to.
    pub lost: Vec<String>,
}

impl Tree {
    /// Read the library from `src/lib.rs` on.
    pub fn read() -> Self {
        let mut tree = Self { files: vec![], modules: BTreeMap::new(), lost: vec![] };
        tree.file(PathBuf::from("src/lib.rs"), vec![], false);
        let mut on_disk = vec![];
        list(&root().join("src"), &mut on_disk);
        let roots = ["src/main.rs", "src/build.rs"];
        let known = |path: &String| {
            roots.contains(&path.as_str()) || tree.files.iter().any(|file| file.path == *path)
        };
        on_disk.retain(|path| !known(path));
        tree.lost = on_disk;
        tree
    }

    fn file(&mut self, path: PathBuf, module: Names, in_tests: bool) {
        let text =
            fs::read_to_string(root().join(&path)).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let parsed = syn::parse_file(&text).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let number = self.files.len();
        let written = path.to_string_lossy().into_owned();
        self.files.push(File { path: written, module: module.clone(), items: vec![], in_tests });
        // A file `name.rs` keeps its children in the folder `name`, a `mod.rs` and the root beside itself.
        let stem = path.file_stem().unwrap_or_default();
        let beside = path.parent().unwrap_or(Path::new("")).to_path_buf();
        let folder = if stem == "mod" || stem == "lib" { beside.clone() } else { beside.join(stem) };
        self.module(number, &parsed.items, module, &beside, &folder, in_tests);
        self.files[number].items = parsed.items;
    }
    fn module(
        &mut self,
        number: usize,
        items: &[Item],
        path: Names,
        beside: &Path,
        folder: &Path,
        in_tests: bool,
    ) {
        let mut module = Module { file: number, ..Module::default() };
        for item in items {
            match item {
                Item::Use(it) if !for_tests(&it.attrs) => bring(&it.tree, &mut vec![], &mut module),
                Item::Macro(it) => {
                    if let Some(name) = &it.ident {
                        module.defines.insert(name.to_string());
                    }
                    defined_in(it.mac.tokens.clone(), &mut module.defines);
                }
                _ => {
                    module.defines.extend(name_of(item));
                }
            }
            let Item::Mod(it) = item else { continue };
            let name = it.ident.to_string();
            let child: Names = path.iter().cloned().chain([name.clone()]).collect();
            let in_tests = in_tests || for_tests(&it.attrs);
            if let Some((_, items)) = &it.content {
                self.module(number, items, child, beside, &folder.join(&name), in_tests);
            } else if let Some(path) = path_of(&it.attrs) {
                self.file(tidy(&beside.join(path)), child, in_tests);
            } else {
                let one = folder.join(format!("{name}.rs"));
                let file = if root().join(&one).exists() { one } else { folder.join(name).join("mod.rs") };
                self.file(file, child, in_tests);
            }
        }
        self.modules.insert(path, module);
    }
}

/// Every `.rs` file under a folder, from the package's folder on.
fn list(folder: &Path, into: &mut Vec<String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            list(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push(path.strip_prefix(root()).unwrap().to_string_lossy().into_owned());
        }
    }
}

/// `a/b/../c` as `a/c`.
fn tidy(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in path.components() {
        if part.as_os_str() == ".." {
            out.pop();
        } else {
            out.push(part);
        }
    }
    out
}

/// Does `#[cfg(test)]` stand before it, or `#[test]`?
pub fn for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|a| {
        let inside = a.meta.require_list().map(|list| list.tokens.to_string()).unwrap_or_default();
        a.path().is_ident("test") || (a.path().is_ident("cfg") && inside == "test")
    })
}

fn path_of(attributes: &[Attribute]) -> Option<String> {
    attributes.iter().find(|a| a.path().is_ident("path")).and_then(|a| match &a.meta {
        syn::Meta::NameValue(syn::MetaNameValue {
            value: syn::Expr::Lit(syn::ExprLit { lit: syn::Lit::Str(text), .. }),
            ..
        }) => Some(text.value()),
        _ => None,
    })
}

fn name_of(item: &Item) -> Option<String> {
    Some(
        match item {
            Item::Const(it) => &it.ident,
            Item::Enum(it) => &it.ident,
            Item::Fn(it) => &it.sig.ident,
            Item::Static(it) => &it.ident,
            Item::Struct(it) => &it.ident,
            Item::Trait(it) => &it.ident,
            Item::Type(it) => &it.ident,
            Item::Union(it) => &it.ident,
            _ => return None,
        }
        .to_string(),
    )
}

/// Names that a macro defines, read off its words: what follows `enum`, `struct`, `fn` and the like.
fn defined_in(tokens: TokenStream, into: &mut BTreeSet<String>) {
    let mut after = false;
    for token in tokens {
        match token {
            TokenTree::Group(group) => defined_in(group.stream(), into),
            TokenTree::Ident(word) if after => {
                into.insert(word.to_string());
                after = false;
            }
            TokenTree::Ident(word) => {
                let word = word.to_string();
                after = ["enum", "struct", "fn", "const", "static", "type", "trait"].contains(&word.as_str());
            }
            _ => after = false,
        }
    }
}

fn bring(tree: &UseTree, path: &mut Names, module: &mut Module) {
    match tree {
        UseTree::Path(it) => {
            path.push(it.ident.to_string());
            bring(&it.tree, path, module);
            path.pop();
        }
        UseTree::Name(it) if it.ident == "self" => {
            module.brings.insert(path.last().cloned().unwrap_or_default(), path.clone());
        }
        UseTree::Name(it) => {
            let whole = path.iter().cloned().chain([it.ident.to_string()]).collect();
            module.brings.insert(it.ident.to_string(), whole);
        }
        UseTree::Rename(it) => {
            let whole = path.iter().cloned().chain([it.ident.to_string()]).collect();
            module.brings.insert(it.rename.to_string(), whole);
        }
        UseTree::Glob(_) => module.globs.push(path.clone()),
        UseTree::Group(it) => it.items.iter().for_each(|tree| bring(tree, path, module)),
    }
}
