//! Products: what a tube and a whole system are called, in which unit they are, and how the one lies in the other.

use elbowroom_geometry::{Point3, Vector3};

use super::records::{Id, Records, list, text};

/// What every product of a file refers to.
pub(super) struct Common {
    product_context: Id,
    definition_context: Id,
    /// Millimetres, radians, and how near two points are one.
    pub units: Id,
    /// The origin with the axes of the world.
    pub origin: Id,
}

/// A product with its shape.
pub(super) struct Product {
    definition: Id,
    shape: Id,
}

impl Common {
    /// Writes it.
    pub fn put(records: &mut Records) -> Self {
        let application = records.put("APPLICATION_CONTEXT('core data for automotive mechanical design processes')");
        records.put(format_args!(
            "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{application})"
        ));
        let product_context = records.put(format_args!("PRODUCT_CONTEXT('',{application},'mechanical')"));
        let definition_context =
            records.put(format_args!("PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"));
        let length = records.put("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))");
        let angle = records.put("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))");
        let solid_angle = records.put("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())");
        let near = records.put(format_args!(
            "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),{length},'distance_accuracy_value','how near two points are one')"
        ));
        let units = records.put(format_args!(
            "(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({near}))\
             GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid_angle}))REPRESENTATION_CONTEXT('',''))"
        ));
        let origin = records.placement(&Point3::origin(), &Vector3::z(), &Vector3::x());
        Self { product_context, definition_context, units, origin }
    }

    /// Writes the product of a tube.
    pub fn tube(&self, records: &mut Records, name: &str, note: &str, solid: Id) -> Product {
        let items = list(&[self.origin, solid]);
        let shape =
            records.put(format_args!("ADVANCED_BREP_SHAPE_REPRESENTATION({},{items},{})", text(name), self.units));
        self.product(records, name, note, shape)
    }

    /// Writes the product of a whole system, whose tubes lie in it as they were drawn.
    pub fn assembly(&self, records: &mut Records, name: &str, tubes: &[(String, Product)]) {
        let places: Vec<Id> =
            tubes.iter().map(|_| records.placement(&Point3::origin(), &Vector3::z(), &Vector3::x())).collect();
        let items = list(&[&[self.origin], places.as_slice()].concat());
        let shape = records.put(format_args!("SHAPE_REPRESENTATION({},{items},{})", text(name), self.units));
        let whole = self.product(records, name, "", shape);
        for (index, ((name, tube), place)) in tubes.iter().zip(&places).enumerate() {
            let occurrence = records.put(format_args!(
                "NEXT_ASSEMBLY_USAGE_OCCURRENCE('{}',{},'',{},{},$)",
                index + 1,
                text(name),
                whole.definition,
                tube.definition
            ));
            let lies = records.put(format_args!("PRODUCT_DEFINITION_SHAPE('placement','',{occurrence})"));
            let moved = records.put(format_args!("ITEM_DEFINED_TRANSFORMATION('','',{},{place})", self.origin));
            let relation = records.put(format_args!(
                "(REPRESENTATION_RELATIONSHIP('','',{},{})REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION({moved})\
                 SHAPE_REPRESENTATION_RELATIONSHIP())",
                tube.shape, whole.shape
            ));
            records.put(format_args!("CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({relation},{lies})"));
        }
    }

    fn product(&self, records: &mut Records, name: &str, note: &str, shape: Id) -> Product {
        let (name, note) = (text(name), text(note));
        let product = records.put(format_args!("PRODUCT({name},{name},{note},({}))", self.product_context));
        records.put(format_args!("PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))"));
        let formation = records.put(format_args!("PRODUCT_DEFINITION_FORMATION('','',{product})"));
        let definition =
            records.put(format_args!("PRODUCT_DEFINITION('design','',{formation},{})", self.definition_context));
        let defined = records.put(format_args!("PRODUCT_DEFINITION_SHAPE('','',{definition})"));
        records.put(format_args!("SHAPE_DEFINITION_REPRESENTATION({defined},{shape})"));
        Product { definition, shape }
    }
}
