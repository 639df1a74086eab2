//! Which file names a thing of which other file: every path of every `use` and of the code, followed through
//! re-exports to the file that defines it. What a method call or a field needs is not seen: no path stands there.

use std::collections::BTreeSet;

use proc_macro2::{Span, TokenStream, TokenTree};
use syn::visit::{self, Visit};
use syn::{Item, UseTree, Visibility};

use super::tree::{Names, Tree, for_tests};

/// One file naming a thing of another.
#[derive(Clone, Debug)]
pub struct Lean {
    /// The file that names.
    pub from: usize,
    /// The file that defines.
    pub to: usize,
    /// The name as written.
    pub name: String,
    line: usize,
    /// Only tests need it.
    pub in_tests: bool,
    /// The name leads to a whole module, and that alone ties no files together.
    pub module_alone: bool,
}

impl Lean {
    /// For a person: place, name and where it leads.
    pub fn words(&self, paths: &[String]) -> String {
        format!("{}:{} names {} of {}", paths[self.from], self.line, self.name, paths[self.to])
    }
}

/// All of them, also those within one room.
pub fn leans(tree: &Tree) -> Vec<Lean> {
    let mut all = vec![];
    for (number, file) in tree.files.iter().enumerate() {
        let mut reader = Reader {
            tree,
            from: number,
            module: file.module.clone(),
            in_tests: file.in_tests,
            seen: BTreeSet::new(),
            found: &mut all,
        };
        file.items.iter().for_each(|item| reader.visit_item(item));
    }
    all
}

/// How many re-exports a name may pass through; globs that bring each other in would go on for ever.
const DEEPEST: usize = 6;

/// Where a path leads: a file, and whether the path names a whole module.
fn resolve(tree: &Tree, module: &[String], path: &[String], depth: usize) -> Option<(usize, bool)> {
    if depth > DEEPEST {
        return None;
    }
    let (first, rest) = path.split_first()?;
    match first.as_str() {
        "crate" | "pintle" => from_module(tree, &[], rest, depth),
        "self" => from_module(tree, module, rest, depth),
        "super" => from_module(tree, module.split_last()?.1, rest, depth),
        _ => from_module(tree, module, path, depth),
    }
}

fn from_module(tree: &Tree, module: &[String], path: &[String], depth: usize) -> Option<(usize, bool)> {
    let at = tree.modules.get(module)?;
    let Some((first, rest)) = path.split_first() else { return Some((at.file, true)) };
    if first == "super" {
        return from_module(tree, module.split_last()?.1, rest, depth);
    }
    let child: Names = module.iter().chain([first]).cloned().collect();
    let is_module = tree.modules.contains_key(&child);
    if at.defines.contains(first) && (!is_module || rest.is_empty()) {
        return Some((at.file, false));
    }
    if is_module {
        return from_module(tree, &child, rest, depth);
    }
    let follow = |brought: &Names| {
        let whole: Names = brought.iter().chain(rest).cloned().collect();
        resolve(tree, module, &whole, depth + 1)
    };
    if let Some(brought) = at.brings.get(first) {
        return follow(brought);
    }
    at.globs.iter().find_map(|glob| {
        let whole: Names = glob.iter().chain(path).cloned().collect();
        resolve(tree, module, &whole, depth + 1)
    })
}

struct Reader<'a> {
    tree: &'a Tree,
    from: usize,
    module: Names,
    in_tests: bool,
    seen: BTreeSet<(usize, String, bool)>,
    found: &'a mut Vec<Lean>,
}

impl Reader<'_> {
    fn note(&mut self, path: &[String], at: Span) {
        let Some((to, module_alone)) = resolve(self.tree, &self.module, path, 0) else { return };
        let name = path.iter().filter(|p| !["crate", "self", "super"].contains(&p.as_str()));
        let name = name.cloned().collect::<Vec<_>>().join("::");
        if to != self.from && self.seen.insert((to, name.clone(), self.in_tests)) {
            let (from, line, in_tests) = (self.from, at.start().line, self.in_tests);
            self.found.push(Lean { from, to, name, line, in_tests, module_alone });
        }
    }
    fn uses(&mut self, tree: &UseTree, path: &mut Names) {
        match tree {
            UseTree::Path(it) => {
                path.push(it.ident.to_string());
                self.uses(&it.tree, path);
                path.pop();
            }
            UseTree::Group(it) => it.items.iter().for_each(|tree| self.uses(tree, path)),
            UseTree::Name(it) => self.leaf(path, &it.ident),
            UseTree::Rename(it) => self.leaf(path, &it.ident),
            UseTree::Glob(it) => self.note(path, it.star_token.spans[0]),
        }
    }
    fn leaf(&mut self, path: &[String], last: &syn::Ident) {
        let mut whole = path.to_vec();
        if last != "self" {
            whole.push(last.to_string());
        }
        self.note(&whole, last.span());
    }
    /// Paths inside a macro, read off its words: names with `::` between them.
    fn words(&mut self, tokens: TokenStream) {
        let mut path: Vec<String> = vec![];
        let (mut colons, mut at) = (0, Span::call_site());
        for token in tokens {
            match token {
                TokenTree::Ident(word) => {
                    if colons != 2 && !path.is_empty() {
                        self.note(&std::mem::take(&mut path), at);
                    }
                    if path.is_empty() {
                        at = word.span();
                    }
                    path.push(word.to_string());
                    colons = 0;
                }
                TokenTree::Punct(sign) if sign.as_char() == ':' => colons += 1,
                other => {
                    if !path.is_empty() {
                        self.note(&std::mem::take(&mut path), at);
                    }
                    colons = 0;
                    if let TokenTree::Group(group) = other {
                        self.words(group.stream());
                    }
                }
            }
        }
        if !path.is_empty() {
            self.note(&path, at);
        }
    }
    fn as_tests(&mut self, tests: bool, read: impl FnOnce(&mut Self)) {
        let before = self.in_tests;
        self.in_tests |= tests;
        read(self);
        self.in_tests = before;
    }
}

impl<'ast> Visit<'ast> for Reader<'_> {
    fn visit_item(&mut self, item: &'ast Item) {
        let attributes = match item {
            Item::Const(it) => &it.attrs,
            Item::Enum(it) => &it.attrs,
            Item::Fn(it) => &it.attrs,
            Item::Impl(it) => &it.attrs,
            Item::Mod(it) => &it.attrs,
            Item::Static(it) => &it.attrs,
            Item::Struct(it) => &it.attrs,
            Item::Use(it) => &it.attrs,
            _ => return visit::visit_item(self, item),
        };
        self.as_tests(for_tests(attributes), |reader| visit::visit_item(reader, item));
    }
    fn visit_impl_item_fn(&mut self, it: &'ast syn::ImplItemFn) {
        self.as_tests(for_tests(&it.attrs), |reader| visit::visit_impl_item_fn(reader, it));
    }
    fn visit_item_mod(&mut self, it: &'ast syn::ItemMod) {
        self.module.push(it.ident.to_string());
        visit::visit_item_mod(self, it);
        self.module.pop();
    }
    fn visit_item_use(&mut self, it: &'ast syn::ItemUse) {
        // A re-export hands a name on; only the code that uses the name leans on it.
        if matches!(it.vis, Visibility::Inherited) {
            self.uses(&it.tree, &mut vec![]);
        }
    }
    fn visit_path(&mut self, path: &'ast syn::Path) {
        let names: Names = path.segments.iter().map(|s| s.ident.to_string()).collect();
        if let (Some(first), None) = (path.segments.first(), path.leading_colon) {
            self.note(&names, first.ident.span());
        }
        visit::visit_path(self, path);
    }
    fn visit_macro(&mut self, it: &'ast syn::Macro) {
        self.words(it.tokens.clone());
        visit::visit_macro(self, it);
    }
}
