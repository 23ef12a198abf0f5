// Metal, marks and handles of the scene: cheap enough for a processor that stands in for a graphics card.
// Every colour comes from the program's theme; here are only shares of light.
#import bevy_pbr::{forward_io::VertexOutput, mesh_view_bindings::view}

struct Paint {
    // Linear colour; alpha is the opacity.
    base: vec4<f32>,
    // Colour of the mark; alpha says its pattern: 0 none, 1 dots, 2 stripes, 3 solid.
    mark: vec4<f32>,
    // Colour between dots and stripes; alpha says how much of it lies over the metal.
    ground: vec4<f32>,
    // How much of a step of uv is one of the pattern, round the tube (x) and along it (y).
    grain: vec4<f32>,
    // Colour around handles; alpha says the surface: 0 metal, 1 handle, 2 block, 3 matte,
    // 4 handle that is a ring.
    ink: vec4<f32>,
    // Colour of highlighted stretches; alpha says how much of it.
    glow: vec4<f32>,
    // Colour of the main light, and of the light from all sides.
    light: vec4<f32>,
    ambient: vec4<f32>,
    // Colour of the inside.
    inside: vec4<f32>,
}

@group(#{MATERIAL_BIND_GROUP}) @binding(0) var<uniform> paint: Paint;

// The unit direction to the eye. In parallel projection all are the same.
fn to_eye(place: vec3<f32>) -> vec3<f32> {
    if view.clip_from_view[3][3] == 1.0 {
        return normalize(view.world_from_view[2].xyz);
    }
    return normalize(view.world_position - place);
}

// The light that a mirror sees in a direction: a bright sky over a darker floor, and two soft lamps that go with the eye,
// so that a tube reads as round from every side.
fn studio(seen: vec3<f32>) -> f32 {
    let right = view.world_from_view[0].xyz;
    let up = view.world_from_view[1].xyz;
    let back = view.world_from_view[2].xyz;
    let sky = smoothstep(-0.55, 0.85, seen.z);
    let horizon = exp(-30.0 * (seen.z + 0.05) * (seen.z + 0.05));
    let key = max(dot(seen, normalize(0.45 * back + 0.8 * up - 0.4 * right)), 0.0);
    let rim = max(dot(seen, normalize(-0.25 * back - 0.35 * up + 0.9 * right)), 0.0);
    return 0.30 + 0.62 * sky - 0.20 * horizon + 0.95 * pow(key, 28.0) + 0.28 * pow(key, 5.0) + 0.30 * pow(rim, 9.0);
}

// How much of a mark's colour lies here; the pattern repeats with every whole step of uv.
fn pattern(kind: f32, uv: vec2<f32>) -> f32 {
    if kind > 2.5 {
        return 1.0;
    }
    if kind > 1.5 {
        let across = uv.x + uv.y;
        let soft = clamp(fwidth(across), 1e-4, 0.5);
        let away = abs(fract(across) - 0.5);
        return 1.0 - smoothstep(0.27 - soft, 0.27 + soft, away);
    }
    if kind > 0.5 {
        // Every other row is set off by half a step.
        let row = floor(uv.y);
        let shifted = vec2(uv.x + 0.5 * (row - 2.0 * floor(0.5 * row)), uv.y);
        let away = length(fract(shifted) - 0.5);
        let soft = clamp(length(fwidth(uv)), 1e-4, 0.35);
        return 1.0 - smoothstep(0.31 - soft, 0.31 + soft, away);
    }
    return 0.0;
}

@fragment
fn fragment(in: VertexOutput, @builtin(front_facing) front: bool) -> @location(0) vec4<f32> {
    let eye = to_eye(in.world_position.xyz);
    var normal = normalize(in.world_normal);
    let facing = dot(normal, eye);
    let surface = paint.ink.a;
    if surface > 0.5 && surface < 1.5 {
        // A handle: a flat disc with a rim.
        let soft = max(fwidth(facing), 0.02);
        let rim = smoothstep(0.62 - soft, 0.62 + soft, facing);
        return vec4(mix(paint.ink.rgb, paint.base.rgb, rim), paint.base.a);
    }
    if surface > 3.5 {
        // A handle that is a ring: rim, band, and nothing within.
        let soft = max(fwidth(facing), 0.02);
        let band = smoothstep(0.45 - soft, 0.45 + soft, facing);
        let within = smoothstep(0.74 - soft, 0.74 + soft, facing);
        return vec4(mix(paint.ink.rgb, paint.base.rgb, band), 1.0 - within);
    }
    normal = select(-normal, normal, facing > 0.0);
    let lift = 0.5 + 0.5 * normal.z;
    let up = view.world_from_view[1].xyz;
    let lamp = max(dot(normal, normalize(eye + 0.55 * up)), 0.0);
    let soft_light = paint.ambient.rgb * (0.42 + 0.22 * lift) + paint.light.rgb * (0.45 * lamp);
    if surface > 2.5 && !front {
        // Into an open tube that is matte.
        return vec4(paint.inside.rgb * (0.25 + 0.45 * lift), 1.0);
    }
    if surface > 1.5 {
        let edge = 1.0 - abs(facing);
        return vec4(paint.base.rgb * (0.55 + 0.5 * soft_light), min(paint.base.a * (1.0 + 0.7 * edge), 1.0));
    }
    let mirrored = studio(reflect(-eye, normal));
    let graze = pow(1.0 - abs(facing), 4.0);
    var metal = paint.base.rgb * (0.30 * soft_light + 0.86 * mirrored * paint.light.rgb) + 0.10 * graze * paint.ambient.rgb;
    if !front {
        // Into the open tube.
        metal = paint.inside.rgb * (0.25 + 0.45 * lift);
        return vec4(metal, 1.0);
    }
    var colour = metal;
    let kind = paint.mark.a;
    if kind > 0.5 {
#ifdef VERTEX_UVS_A
        let share = pattern(kind, in.uv * paint.grain.xy);
#else
        let share = 1.0;
#endif
        let gloss = 0.16 * pow(max(mirrored - 0.75, 0.0), 1.5);
        let painted = paint.mark.rgb * (0.28 + 0.78 * soft_light) + gloss * paint.light.rgb;
        let ground = paint.ground.rgb * (0.28 + 0.78 * soft_light) + gloss * paint.light.rgb;
        let between = mix(metal, ground, paint.ground.a);
        colour = mix(between, painted, share);
    }
    let glow = paint.glow.a;
    if glow > 0.0 {
        let lit = paint.glow.rgb * (0.35 + 0.75 * soft_light);
        // A mark keeps its colour: there the highlight runs along the edges.
        let edge = 1.0 - abs(facing);
        colour = mix(colour, lit, glow * select(0.72, 0.06 + 0.75 * edge * edge, kind > 0.5));
    }
    return vec4(colour, 1.0);
}
