//! Which solids lie where: products, assemblies and mapped items, walked from the top.

use std::collections::{HashMap, HashSet};

use super::exchange::Exchange;
use super::place::Place;
use super::value::{Record, Value};
use crate::error::TextError;

/// How deep assemblies may lie in assemblies; a bound on what a file can make of little.
const DEEPEST: usize = 64;
/// The most shapes that are placed: a hundred times the tubes of the largest system. A bound on time.
const MOST_PLACED: usize = 100_000;

/// The solids of one product where it lies.
pub(super) struct Instance {
    /// What the product is called; empty where it is not.
    pub name: String,
    /// Records of solids and shells with the unit of each in mm, and the motion that carries them there.
    pub shapes: Vec<(u64, f64, Place)>,
}

/// All that a file shows.
pub(super) struct Shown {
    /// What the whole is called, where it is one assembly; else empty.
    pub name: String,
    /// Every product that shows a solid, where it lies.
    pub instances: Vec<Instance>,
}

/// A child of a product in an assembly.
struct Child {
    definition: u64,
    occurrence: u64,
}

/// What leads from one record to others, looked up once.
pub(super) struct Walk<'e, 'a> {
    exchange: &'e Exchange<'a>,
    /// Representations of each product definition.
    shapes: HashMap<u64, Vec<u64>>,
    children: HashMap<u64, Vec<Child>>,
    /// The relation that says where the child of an occurrence lies.
    relations: HashMap<u64, u64>,
    /// Representations that show the same, in the same place.
    alike: HashMap<u64, Vec<u64>>,
    placed: usize,
}

impl<'e, 'a> Walk<'e, 'a> {
    /// Every product that shows a solid, where it lies.
    pub fn shown(exchange: &'e Exchange<'a>) -> Result<Shown, TextError> {
        let mut walk = Self {
            exchange,
            shapes: HashMap::new(),
            children: HashMap::new(),
            relations: HashMap::new(),
            alike: HashMap::new(),
            placed: 0,
        };
        let related = walk.look_up()?;
        let mut instances = Vec::new();
        let mut roots: Vec<u64> =
            walk.shapes.keys().chain(walk.children.keys()).filter(|one| !related.contains(*one)).copied().collect();
        roots.sort_unstable();
        roots.dedup();
        for root in &roots {
            walk.product(*root, &Place::world(), &mut instances, DEEPEST)?;
        }
        if instances.is_empty() {
            // A file without products shows its representations alone.
            for number in exchange.all("ADVANCED_BREP_SHAPE_REPRESENTATION") {
                let mut instance = Instance { name: String::new(), shapes: Vec::new() };
                walk.representation(number, &Place::world(), &mut instance, &mut HashSet::new(), DEEPEST)?;
                instances.push(instance);
            }
        }
        instances.retain(|instance| !instance.shapes.is_empty());
        let name = match roots.as_slice() {
            [root] if walk.children.contains_key(root) => walk.name_of(*root)?,
            _ => String::new(),
        };
        Ok(Shown { name, instances })
    }

    /// Fills the tables; gives every definition that is a child of another.
    fn look_up(&mut self) -> Result<HashSet<u64>, TextError> {
        let exchange = self.exchange;
        let mut defined: HashMap<u64, u64> = HashMap::new();
        for number in exchange.all("PRODUCT_DEFINITION_SHAPE") {
            if let Some(of) = reference(&exchange.record(number)?, 2) {
                defined.insert(number, of);
            }
        }
        for number in exchange.all("SHAPE_DEFINITION_REPRESENTATION") {
            let record = exchange.record(number)?;
            let of = reference(&record, 0).and_then(|shape| defined.get(&shape));
            if let (Some(of), Some(representation)) = (of, reference(&record, 1)) {
                self.shapes.entry(*of).or_default().push(representation);
            }
        }
        let mut related = HashSet::new();
        for number in exchange.all("NEXT_ASSEMBLY_USAGE_OCCURRENCE") {
            let record = exchange.record(number)?;
            let (Some(parent), Some(child)) = (reference(&record, 3), reference(&record, 4)) else {
                return Err(exchange.wrong(number, "does not say what lies in what", "it must name two products"));
            };
            self.children.entry(parent).or_default().push(Child { definition: child, occurrence: number });
            related.insert(child);
        }
        for number in exchange.all("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION") {
            let record = exchange.record(number)?;
            let of = reference(&record, 1).and_then(|shape| defined.get(&shape));
            if let (Some(of), Some(relation)) = (of, reference(&record, 0)) {
                self.relations.insert(*of, relation);
            }
        }
        for number in exchange.all("SHAPE_REPRESENTATION_RELATIONSHIP") {
            let record = exchange.record(number)?;
            if record.of("REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION").is_some() {
                continue;
            }
            if let (Some(one), Some(other)) = (reference(&record, 2), reference(&record, 3)) {
                self.alike.entry(one).or_default().push(other);
                self.alike.entry(other).or_default().push(one);
            }
        }
        Ok(related)
    }

    fn product(
        &mut self,
        definition: u64,
        place: &Place,
        instances: &mut Vec<Instance>,
        depth: usize,
    ) -> Result<(), TextError> {
        let depth = self.deeper(definition, depth)?;
        let shapes = self.shapes.get(&definition).cloned().unwrap_or_default();
        let mut instance = Instance { name: self.name_of(definition)?, shapes: Vec::new() };
        let mut seen = HashSet::new();
        for shape in &shapes {
            self.representation(*shape, place, &mut instance, &mut seen, depth)?;
        }
        instances.push(instance);
        let children: Vec<(u64, u64)> = self
            .children
            .get(&definition)
            .map(|children| children.iter().map(|child| (child.definition, child.occurrence)).collect())
            .unwrap_or_default();
        for (child, occurrence) in children {
            let motion = match self.relations.get(&occurrence) {
                Some(relation) => self.relation(*relation, &seen)?,
                None => {
                    let right = "it must say by a transformation where the part lies in its assembly";
                    return Err(self.exchange.wrong(occurrence, "does not say where its part lies", right));
                }
            };
            self.product(child, &place.then(&motion), instances, depth)?;
        }
        Ok(())
    }

    /// The motion that carries a child into its parent, whose representations are known.
    fn relation(&self, number: u64, parents: &HashSet<u64>) -> Result<Place, TextError> {
        let exchange = self.exchange;
        let record = exchange.record(number)?;
        let unsound =
            |what: &str| exchange.wrong(number, what, "it must name two representations and a transformation");
        let between = record.of("REPRESENTATION_RELATIONSHIP").ok_or_else(|| unsound("relates nothing"))?;
        let moved = record.of("REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION").and_then(|values| values.first());
        let (Some(first), Some(second), Some(moved)) = (
            between.get(2).and_then(Value::reference),
            between.get(3).and_then(Value::reference),
            moved.and_then(Value::reference),
        ) else {
            return Err(unsound("does not say by which transformation"));
        };
        let transformation = exchange.record(moved)?;
        let Some([_, _, one, other]) = transformation.of("ITEM_DEFINED_TRANSFORMATION") else {
            return Err(exchange.wrong(moved, "is no transformation between two places", "it must be one"));
        };
        let (Some(one), Some(other)) = (one.reference(), other.reference()) else {
            return Err(exchange.wrong(moved, "does not name two places", "it must name two"));
        };
        // Usually the child comes first. The parent is known by what it shows.
        let (child, parent) =
            if parents.contains(&first) && !parents.contains(&second) { (second, first) } else { (first, second) };
        // And the place in the child stands first, unless it is among the items of the parent.
        let (parent_items, parent_mm) = self.items(parent)?;
        let child_mm = self.items(child)?.1;
        let swapped = parent_items.contains(&one) && !parent_items.contains(&other);
        let (in_child, in_parent) = if swapped { (other, one) } else { (one, other) };
        let in_child = exchange.axis_placement(in_child, child_mm)?;
        let in_parent = exchange.axis_placement(in_parent, parent_mm)?;
        Ok(in_parent.then(&in_child.undone()))
    }

    /// The items of a representation and its unit, mm.
    fn items(&self, number: u64) -> Result<(Vec<u64>, f64), TextError> {
        let record = self.exchange.record(number)?;
        // Of several kinds at once, the one that holds the values.
        let values = record.kinds.iter().map(|(_, values)| values).find(|values| values.len() >= 3);
        let context = values.and_then(|values| values[2].reference()).ok_or_else(|| {
            self.exchange.wrong(number, "is no representation in a context", "it must name its items and its context")
        })?;
        let items = values.map(|values| values[1].list().iter().filter_map(Value::reference).collect());
        Ok((items.unwrap_or_default(), self.exchange.unit_mm(context)?))
    }

    fn representation(
        &mut self,
        number: u64,
        place: &Place,
        instance: &mut Instance,
        seen: &mut HashSet<u64>,
        depth: usize,
    ) -> Result<(), TextError> {
        let depth = self.deeper(number, depth)?;
        if !seen.insert(number) {
            return Ok(());
        }
        let (items, unit_mm) = self.items(number)?;
        for item in items {
            let record = self.exchange.record(item)?;
            match record.kind() {
                "MANIFOLD_SOLID_BREP" | "BREP_WITH_VOIDS" | "SHELL_BASED_SURFACE_MODEL" => {
                    instance.shapes.push((item, unit_mm, *place));
                }
                "MAPPED_ITEM" => self.mapped(&record, place, unit_mm, instance, depth)?,
                _ if record.of("MANIFOLD_SOLID_BREP").is_some() => instance.shapes.push((item, unit_mm, *place)),
                _ => {}
            }
        }
        for alike in self.alike.get(&number).cloned().unwrap_or_default() {
            self.representation(alike, place, instance, seen, depth)?;
        }
        Ok(())
    }

    fn mapped(
        &mut self,
        record: &Record<'a>,
        place: &Place,
        unit_mm: f64,
        instance: &mut Instance,
        depth: usize,
    ) -> Result<(), TextError> {
        let unsound = |what: &str| self.exchange.wrong(record.number, what, "it must name a map and a place");
        let [_, source, target] = record.values() else { return Err(unsound("is no mapped item")) };
        let (Some(source), Some(target)) = (source.reference(), target.reference()) else {
            return Err(unsound("does not say what is mapped where"));
        };
        let map = self.exchange.record(source)?;
        let (Some(origin), Some(shown)) = (reference(&map, 0), reference(&map, 1)) else {
            return Err(self.exchange.wrong(
                source,
                "does not say what it maps",
                "it must name a place and what is shown",
            ));
        };
        let inner_mm = self.items(shown)?.1;
        let from = self.exchange.axis_placement(origin, inner_mm)?;
        let to = self.exchange.axis_placement(target, unit_mm)?;
        let place = place.then(&to).then(&from.undone());
        // What is shown twice lies in two places: it is not what was seen before.
        self.representation(shown, &place, instance, &mut HashSet::new(), depth)
    }

    fn deeper(&mut self, number: u64, depth: usize) -> Result<usize, TextError> {
        self.placed += 1;
        if self.placed > MOST_PLACED {
            let right = format!("the file must place {MOST_PLACED} or fewer");
            return Err(self.exchange.wrong(number, "is one shape too many to be placed", &right));
        }
        depth.checked_sub(1).ok_or_else(|| {
            let right = format!("assemblies must lie {DEEPEST} deep in each other or less, and never in themselves");
            self.exchange.wrong(number, "lies too deep in assemblies", &right)
        })
    }

    /// What the product of a definition is called.
    fn name_of(&self, definition: u64) -> Result<String, TextError> {
        let follow = |number: Option<u64>, place: usize| -> Result<Option<u64>, TextError> {
            number.map(|number| Ok(reference(&self.exchange.record(number)?, place))).transpose().map(Option::flatten)
        };
        let formation = follow(Some(definition), 2)?;
        let Some(product) = follow(formation, 2)? else { return Ok(String::new()) };
        let record = self.exchange.record(product)?;
        let said = record.of("PRODUCT").unwrap_or_default().iter().take(2).rev().filter_map(Value::text);
        Ok(said.map(|name| name.trim().to_owned()).find(|name| !name.is_empty()).unwrap_or_default())
    }
}

/// The record that a value of a record names.
fn reference(record: &Record<'_>, place: usize) -> Option<u64> {
    let held = record.kinds.iter().map(|(_, values)| values).find(|values| values.len() > place)?;
    held[place].reference()
}
