//! Indices of checked parts: holding one proves that the part exists in the graph it came from.

use serde::{Deserialize, Serialize};

macro_rules! index {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        pub struct $name(pub(in crate::concepts) u32);

        impl $name {
            /// Its place among all of its kind, in file order, counted from 0.
            pub fn place(self) -> usize {
                self.0 as usize
            }
        }
    };
}

index!(
    /// An entity.
    EntityIx
);
index!(
    /// A quantity.
    QuantityIx
);
index!(
    /// A principle.
    PrincipleIx
);
index!(
    /// A setting.
    SettingIx
);
index!(
    /// An influence.
    InfluenceIx
);
index!(
    /// A bench act.
    ActIx
);
index!(
    /// A rig.
    RigIx
);
index!(
    /// A context.
    ContextIx
);
index!(
    /// A field.
    FieldIx
);
