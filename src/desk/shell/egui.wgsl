// What egui's shapes are painted with, in place of bevy_egui's own shader, whose six powers a pixel cost most of a frame
// where a processor paints. It gives the same colours: a letter's texel is white of some coverage, so its alpha says all
// of it, and the power from gamma to linear light is a polynomial that is right to less than half of one of 256 steps.

struct Transform {
    scale: vec2<f32>,
    translation: vec2<f32>,
}

struct VertexOutput {
    @builtin(position) position: vec4<f32>,
    @location(0) colour: vec4<f32>,
    @location(1) uv: vec2<f32>,
}

@group(0) @binding(0) var<uniform> transform: Transform;
@group(1) @binding(0) var image_texture: texture_2d<f32>;
@group(1) @binding(1) var image_sampler: sampler;

@vertex
fn vs_main(
    @location(0) position: vec2<f32>,
    @location(1) uv: vec2<f32>,
    @location(2) colour: vec4<f32>,
) -> VertexOutput {
    return VertexOutput(vec4<f32>(position * transform.scale + transform.translation, 0.0, 1.0), colour, uv);
}

fn linear_from_gamma(x: vec3<f32>) -> vec3<f32> {
    return x * (0.066432676 + x * (0.195048749 + x * (1.768841231 + x * (x * 0.750291603 - 1.776853584))));
}

@fragment
fn fs_main(in: VertexOutput) -> @location(0) vec4<f32> {
    let painted = in.colour * textureSample(image_texture, image_sampler, in.uv).a;
    return vec4<f32>(linear_from_gamma(painted.rgb), painted.a);
}
