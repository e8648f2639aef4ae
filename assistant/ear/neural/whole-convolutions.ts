/**
 * The encoder's two heavy convolutions as products of matrices of whole numbers. The package keeps their
 * kernels in whole numbers, but has the runtime unpack them and multiply floats: half of what the encoder
 * took.
 */
import { type FreshNode, withNodes } from '../onnx/nodes.ts';
import { type FreshTensor, onnxTensors } from '../onnx/tensors.ts';
import { floats, places, steps } from '../onnx/values.ts';
import type { Bytes } from '../onnx/written.ts';
import {
  inSteps,
  MOST,
  multiplied,
  NONE,
  STEP_TENSORS,
  stepsOf,
  type Whole,
} from './whole-numbers.ts';

/** A convolution as the package's graph has it. */
interface Convolution {
  readonly name: string;
  /** What it is applied to: 1 by `inputs` by time. */
  readonly of: string;
  readonly kernels: number;
  readonly inputs: number;
  /** Samples of a kernel. */
  readonly samples: number;
  readonly stride: number;
  /**
   * How what it is applied to is rounded to 8 bits: each stretch that a kernel lies on in steps of its
   * own; or all in the same steps, and what that leaves of it besides. The encoder is then off by 3 in a
   * hundred, as much as by the rounding of what follows. The second convolution in the same steps for all
   * is 6 off in a quiet room. The third is applied to peaks thirty times the mean: 10 off if rounded once.
   */
  readonly rounded: 'by stretch' | 'twice';
}

const CONVOLUTIONS: readonly Convolution[] = [
  {
    name: 'conv2',
    of: '/groupnorm/Add_output_0',
    kernels: 576,
    inputs: 288,
    samples: 7,
    stride: 3,
    rounded: 'by stretch',
  },
  {
    name: 'conv3',
    of: '/Mul_1_output_0',
    kernels: 288,
    inputs: 576,
    samples: 3,
    stride: 2,
    rounded: 'twice',
  },
];

/** As far as a row goes: no sound is that long. */
const TO_THE_END = 2 ** 31 - 1;

/** The tensors that a convolution has in the package's graph, and the nodes that make weights of them. */
const GIVEN = ['quantized', 'scale', 'zero_point'] as const;
const UNPACKING = ['cast', 'mul', 'add'] as const;

const own = ({ name }: Convolution, what: string): string => `${name}.${what}`;
const given = (convolution: Convolution, what: string): string =>
  own(convolution, `weight_${what}`);

const kernelsOf = (convolution: Convolution): Whole => ({
  values: own(convolution, 'kernels'),
  none: own(convolution, 'none'),
  step: own(convolution, 'steps'),
});

/** The stretches of `from`, time by something, that a kernel lies on: for each of its samples a tensor. */
const taken = (convolution: Convolution, from: string): readonly FreshNode[] =>
  Array.from({ length: convolution.samples }, (_, sample) => ({
    op: 'Slice',
    from: [
      from,
      ...[`from${sample}`, `to${sample}`, 'axis', 'stride'].map((what) => own(convolution, what)),
    ],
    to: [`${from}.${sample}`],
  }));

/** The same, a row for each stretch, called `${from}.rows`. */
function rowsOf(convolution: Convolution, from: string): readonly FreshNode[] {
  const pieces = taken(convolution, from);
  const all = pieces.flatMap(({ to }) => to);
  return [...pieces, { op: 'Concat', from: all, to: [`${from}.rows`], attributes: { axis: 2 } }];
}

function byStretch(convolution: Convolution, time: string, to: string): readonly FreshNode[] {
  const [sizes, largest, rows] = [`${time}.sizes`, `${time}.largest`, `${to}.rows`];
  const most = taken(convolution, largest);
  return [
    { op: 'Abs', from: [time], to: [sizes] },
    { op: 'ReduceMax', from: [sizes], to: [largest], attributes: { axes: [2], keepdims: 1 } },
    ...most,
    ...rowsOf(convolution, time),
    ...inSteps(
      `${time}.rows`,
      most.flatMap((node) => node.to),
      rows,
    ),
    ...multiplied(stepsOf(rows), kernelsOf(convolution), to),
  ];
}

/** `from` in the same steps for all, and multiplied. */
function once(convolution: Convolution, from: string, to: string): readonly FreshNode[] {
  const whole: Whole = {
    values: `${to}.steps`,
    none: `${to}.none`,
    step: `${to}.step`,
  };
  return [
    { op: 'DynamicQuantizeLinear', from: [from], to: [whole.values, whole.step, whole.none] },
    ...rowsOf(convolution, whole.values),
    ...multiplied({ ...whole, values: `${whole.values}.rows` }, kernelsOf(convolution), to),
  ];
}

const twice = (convolution: Convolution, time: string, to: string): readonly FreshNode[] => [
  ...once(convolution, time, `${to}.first`),
  {
    op: 'DequantizeLinear',
    from: ['steps', 'step', 'none'].map((what) => `${to}.first.${what}`),
    to: [`${to}.kept`],
  },
  { op: 'Sub', from: [time, `${to}.kept`], to: [`${to}.left`] },
  ...once(convolution, `${to}.left`, `${to}.second`),
  { op: 'Add', from: [`${to}.first`, `${to}.second`], to: [to] },
];

function nodesOf(convolution: Convolution): readonly FreshNode[] {
  const { name, of, rounded } = convolution;
  const [time, product, sum] = [`${name}.time`, `${name}.product`, `${name}.sum`];
  const turned = { perm: [0, 2, 1] };
  return [
    { op: 'Transpose', from: [of], to: [time], attributes: turned },
    ...(rounded === 'twice' ? twice : byStretch)(convolution, time, product),
    { op: 'Add', from: [product, own(convolution, 'bias')], to: [sum] },
    { op: 'Transpose', from: [sum], to: [`/${name}/Conv_output_0`], attributes: turned },
  ];
}

/** The weights kernel after kernel, input after input, as the package's graph makes them. */
function weightsOf(
  convolution: Convolution,
  tensors: ReadonlyMap<string, Bytes>,
): Float32Array<ArrayBuffer> {
  const tensor = (what: (typeof GIVEN)[number]): ArrayBuffer => {
    const found = tensors.get(given(convolution, what));
    if (found === undefined) throw new Error(`the encoder has no ${given(convolution, what)}`);
    return Uint8Array.from(found).buffer;
  };
  const [scale = NaN] = new Float32Array(tensor('scale'));
  // One for all, or, where the encoder is fitted, one for each.
  const added = new Float32Array(tensor('zero_point'));
  const weights = Float32Array.from(
    new Int8Array(tensor('quantized')),
    (step, at) => step * scale + (added[added.length === 1 ? 0 : at] ?? NaN),
  );
  const { name, kernels, inputs, samples } = convolution;
  if (weights.length !== kernels * inputs * samples)
    throw new Error(`the encoder's ${name} has ${weights.length} weights`);
  return weights;
}

/** The kernels in whole numbers: a row for each input of each sample, a column for each kernel. */
function wholeKernels(
  { kernels, inputs, samples }: Convolution,
  weights: Float32Array,
): Record<'kernels' | 'steps', FreshTensor> {
  const size = inputs * samples;
  const values = new Uint8Array(kernels * size);
  const worth = new Float32Array(kernels);
  for (let kernel = 0; kernel < kernels; kernel++) {
    const ofKernel = weights.subarray(kernel * size, (kernel + 1) * size);
    const step = ofKernel.reduce((most, weight) => Math.max(most, Math.abs(weight)), 0) / MOST;
    worth[kernel] = step;
    for (const [at, weight] of ofKernel.entries()) {
      const row = (at % samples) * inputs + Math.floor(at / samples);
      values[row * kernels + kernel] = Math.round(weight / step) + NONE;
    }
  }
  return { kernels: steps(values, [size, kernels]), steps: floats(worth, [kernels]) };
}

function tensorsOf(
  convolution: Convolution,
  tensors: ReadonlyMap<string, Bytes>,
): readonly (readonly [string, FreshTensor])[] {
  const { samples, stride } = convolution;
  const made: Record<string, FreshTensor> = {
    ...wholeKernels(convolution, weightsOf(convolution, tensors)),
    none: steps([NONE], []),
    axis: places(1),
    stride: places(stride),
  };
  for (let sample = 0; sample < samples; sample++) {
    const after = samples - 1 - sample;
    made[`from${sample}`] = places(sample);
    made[`to${sample}`] = places(after === 0 ? TO_THE_END : -after);
  }
  return Object.entries(made).map(([what, tensor]) => [own(convolution, what), tensor]);
}

/**
 * The encoder's ONNX file with its second and third convolution as products of whole numbers.
 * @throws Error when it is no such file.
 */
export function withWholeConvolutions(encoder: Bytes): Bytes {
  const tensors = onnxTensors(encoder);
  const instead = CONVOLUTIONS.flatMap(
    (one): readonly (readonly [string, readonly FreshNode[]])[] => [
      [`/${one.name}/Conv`, nodesOf(one)],
      ...UNPACKING.map((what) => [`${given(one, what)}_node`, []] as const),
    ],
  );
  return withNodes(encoder, {
    instead: new Map(instead),
    tensors: new Map([...STEP_TENSORS, ...CONVOLUTIONS.flatMap((one) => tensorsOf(one, tensors))]),
    without: new Set(CONVOLUTIONS.flatMap((one) => GIVEN.map((what) => given(one, what)))),
  });
}
