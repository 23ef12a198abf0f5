//! The kinds of native files, each with its versions from the oldest to the newest.
//!
//! A field more is a version more: a new line here, a new storage type that the newest one is written by, and a
//! file of the version before in the museum of the tests.

use elbowroom_bending::material::Material;
use elbowroom_bending::{Shop, System};

use super::format::{Format, Version};
use super::recovery_v5::Recovered;
use super::{
    materials_v1, part_v1, recovery_v1, recovery_v2, recovery_v3, recovery_v4, recovery_v5, shop_v1, shop_v2, shop_v3,
    system_v1, system_v2, system_v3, system_v4,
};

/// Systems, and parts, each of which is the system of a single tube.
pub(crate) const SYSTEM: Format<System> = Format {
    noun: "part or system",
    versions: &[
        Version { stamp: part_v1::STAMP, read: part_v1::read },
        Version { stamp: system_v1::STAMP, read: system_v1::read },
        Version { stamp: system_v2::STAMP, read: system_v2::read },
        Version { stamp: system_v3::STAMP, read: system_v3::read },
        Version { stamp: system_v4::STAMP, read: system_v4::read },
    ],
};

/// Shops.
pub(crate) const SHOP: Format<Shop> = Format {
    noun: "shop",
    versions: &[
        Version { stamp: shop_v1::STAMP, read: shop_v1::read },
        Version { stamp: shop_v2::STAMP, read: shop_v2::read },
        Version { stamp: shop_v3::STAMP, read: shop_v3::read },
    ],
};

/// Libraries of materials.
pub(crate) const MATERIALS: Format<Vec<Material>> =
    Format { noun: "materials library", versions: &[Version { stamp: materials_v1::STAMP, read: materials_v1::read }] };

/// Work that was not saved.
pub(crate) const RECOVERY: Format<Recovered> = Format {
    noun: "recovery file",
    versions: &[
        Version { stamp: recovery_v1::STAMP, read: recovery_v1::read },
        Version { stamp: recovery_v2::STAMP, read: recovery_v2::read },
        Version { stamp: recovery_v3::STAMP, read: recovery_v3::read },
        Version { stamp: recovery_v4::STAMP, read: recovery_v4::read },
        Version { stamp: recovery_v5::STAMP, read: recovery_v5::read },
    ],
};
