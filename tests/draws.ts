/**
 * What the property tests draw: the same every time in `npm test`, so that a change is judged and
 * not the luck of a run; fresh draws every night (`SEATCALL_NIGHTLY=1`), or from `SEATCALL_SEED`.
 */
import fc from 'fast-check';

const { SEATCALL_NIGHTLY: nightly, SEATCALL_SEED: seed } = process.env;
if (seed !== undefined) fc.configureGlobal({ seed: Number(seed) });
else if (nightly === undefined) fc.configureGlobal({ seed: 20_261_125 });
