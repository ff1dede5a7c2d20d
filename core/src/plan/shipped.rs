/// The plan that comes with Liftgate.
pub const SHIPPED: &str = include_str!("../../plans/large-electric-helicopter.toml");
