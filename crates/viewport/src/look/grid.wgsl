// The floor, or the plane of a side: two sets of lines, the finer one fading as the eye goes farther away, and both fading towards the edge.
#import bevy_pbr::forward_io::VertexOutput

struct Floor {
    // Linear colours; alpha is the opacity.
    fine: vec4<f32>,
    coarse: vec4<f32>,
    axis: vec4<f32>,
    // Where the world's origin lies, seen from the scene's; its x and y, then the fine step, then how far the
    // fine lines have faded (0 to 1).
    place: vec4<f32>,
    // Middle of the lit patch, in the scene, and its radius.
    patch_: vec4<f32>,
    // The unit directions of the plane, in the scene; their w is where along them the two strong lines lie.
    along: vec4<f32>,
    upward: vec4<f32>,
}

@group(#{MATERIAL_BIND_GROUP}) @binding(0) var<uniform> ground: Floor;

// How much of a line of one pixel lies here, along each axis. Lines closer than a few pixels fade out, so that nothing flickers.
fn lines(place: vec2<f32>, step: f32) -> vec2<f32> {
    let at = place / step;
    let width = max(fwidth(at), vec2(1e-6));
    let away = abs(fract(at - 0.5) - 0.5) / width;
    return (1.0 - clamp(away - 0.1, vec2(0.0), vec2(1.0))) * (1.0 - smoothstep(vec2(0.12), vec2(0.40), width));
}

@fragment
fn fragment(in: VertexOutput) -> @location(0) vec4<f32> {
    let from_middle = length(in.world_position.xyz - ground.patch_.xyz) / ground.patch_.w;
    let scene = vec2(dot(in.world_position.xyz, ground.along.xyz), dot(in.world_position.xyz, ground.upward.xyz));
    if from_middle > 1.0 {
        discard;
    }
    let place = scene - ground.place.xy;
    let step = ground.place.z;
    let fine = lines(place, step);
    let coarse = lines(place, 10.0 * step);
    let fine_alpha = ground.fine.a * max(fine.x, fine.y) * (1.0 - ground.place.w);
    // As the fine lines fade, the coarse ones turn into the fine lines of the next step.
    let strong = mix(ground.coarse, ground.fine, ground.place.w);
    let strong_alpha = strong.a * max(coarse.x, coarse.y);
    var colour = vec4(ground.fine.rgb, fine_alpha);
    if strong_alpha > fine_alpha {
        colour = vec4(strong.rgb, strong_alpha);
    }
    let width = max(fwidth(place), vec2(1e-6));
    let strong_lines = vec2(ground.along.w, ground.upward.w);
    let on_axis = 1.0 - clamp(abs(scene - strong_lines) / width - 0.3, vec2(0.0), vec2(1.0));
    let axis = max(on_axis.x, on_axis.y);
    if ground.axis.a > 0.0 {
        colour = mix(colour, ground.axis, axis);
    }
    let fade = 1.0 - smoothstep(0.35, 1.0, from_middle);
    let alpha = colour.a * fade;
    if alpha < 0.004 {
        discard;
    }
    return vec4(colour.rgb, alpha);
}
