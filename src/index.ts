/**
 * The model as others import it (`import { … } from "annulus"`), and as the terminal's commands do. Read a setup, make an
 * `Instrument` of it, ask a study. Lengths are in mm where a name ends in Mm, all else is SI. A study that takes long is a
 * generator named …Steps: it yields how far it is, and its last value is the result.
 */

// lengths may be typed as sums
import "./units/expression.ts";

// the resonances of an instrument, from a sweep and its recording
export type { StraightTube } from "./acoustics/load/straightTube.ts";
// at the bench: the gap from readings, mouthpieces in receivers, a cut
export { type CutPlan, planCut } from "./bench/cut/cut.ts";
export type { CutQuestion } from "./bench/cut/cutQuestion.ts";
export { cutQuestion } from "./bench/cut/cutSetup.ts";
export type { CutWay, CutWayName } from "./bench/cut/cutWay.ts";
export { planWrap, WRAP_THICKNESS_MM, type WrapPlan, wrapForGapMm } from "./bench/cut/wrap.ts";
export { type FitCell, type FitMatrix, fitMatrix } from "./bench/fit/fitMatrix.ts";
export type { FitSpread } from "./bench/fit/fitSpread.ts";
export { readInstruments, readMouthpieces } from "./bench/fit/partsCsv.ts";
export { setupSeatTaper } from "./bench/fit/setupSeatTaper.ts";
export type { BudgetRow } from "./bench/measure/budget.ts";
export { coverageFactor } from "./bench/measure/coverage.ts";
export { type GapMeasurement, type GapReadings, gapFromReadings } from "./bench/measure/gap.ts";
// drawings for the workshop; PDFs are made by drawing/toPdf.ts, whose library comes when it is asked for
export { type DrawnGauge, drawnGauge, type GaugeOptions } from "./drawing/gaugeSheet.ts";
export type { Sheet } from "./drawing/sheet.ts";
export { toDxf } from "./drawing/toDxf.ts";
export { toSvg } from "./drawing/toSvg.ts";
// the stream
export type { Bounded } from "./flow/gapLoss.ts";
// the lips
export { DEFAULT_LIPS, MASS_REFERENCE_HZ, type OneMassLips } from "./lips/lips.ts";
export { DEFAULT_TWO_WAY_LIPS, type TwoWayLips } from "./lips/twoWayLips.ts";
export { isTwoWay, type Lips } from "./lips/valve.ts";
// what a recording of a player holds
export type { Attack, Attacks } from "./listen/attack.ts";
export type { Bend, Slot, SlotEdge } from "./listen/slot.ts";
export type { Missed, Slur, Slurs } from "./listen/slur.ts";
export type { SteadyNote } from "./listen/steady.ts";
export { listenTo, type Take } from "./listen/take.ts";
export { TAKE_TESTS, type TakeQuestion, type TakeTest } from "./listen/takeQuestion.ts";
export type { ListenWarning } from "./listen/warnings.ts";
export { type SoundBlock, wavBlocks } from "./listen/wav.ts";
export { type Resonance, type Response, type ResponseWarning, responseOf } from "./response/response.ts";
export type { Sound } from "./response/sound.ts";
export { exponentialSweep, type SweepOptions, USUAL_SWEEP } from "./response/sweep.ts";
export { type RigTake, transfers } from "./response/transfer.ts";
export { wavBytes } from "./response/wavBytes.ts";

// the setup: an instrument with a mouthpiece in it, as its file says
export { boreTableText, type Measure, readBoreTable } from "./setup/bore/boreTable.ts";
export { warningsOf, warningText } from "./setup/dimension/plausible.ts";
export { readSetup, readSetupText } from "./setup/file/readSetup.ts";
export { writeSetup } from "./setup/file/writeSetup.ts";
export type { InstrumentKind } from "./setup/instrumentKind.ts";
export { instrumentOf } from "./setup/instrumentOf.ts";
export { SetupError } from "./setup/problem.ts";
export { gapMm, isSameGap, type Setup } from "./setup/setup.ts";
export { isStandIn, STAND_INS, type StandInId, standIn } from "./setup/standIns.ts";
export { withGap } from "./setup/withGap.ts";
// the stream: pressure drop, and the same under breath
export { breathOf } from "./study/blown/breath.ts";
export { type LevelLoss, levelLoss } from "./study/blown/levelLoss.ts";
export {
  type PartDrop,
  type Resistance,
  resistance,
  resistanceCurve,
} from "./study/blown/resistance.ts";
export { findingAt as resistanceFindingAt } from "./study/blown/resistanceChange.ts";
export { type ResistanceChangeLike, resistanceChangeLike } from "./study/blown/resistanceLike.ts";
// an impedance told by known tubes
export {
  type CalibratedImpedance,
  calibratedImpedance,
  type KnownTube,
} from "./study/calibration/calibratedImpedance.ts";
// what changes from one gap to another, and what the trade's rule says to it
export { type ChangedMode, modeChanges } from "./study/change/modeChanges.ts";
export {
  atOtherThresholds,
  type Evidence,
  type Finding,
  PLAYED,
  type Verdict,
  verdicts,
} from "./study/change/verdicts.ts";
// leadpipes beside each other
export { worstPlace } from "./study/compare/boreSensitivity.ts";
export {
  type Compared,
  type CompareOptions,
  type Comparison,
  compare,
  compareSteps,
  comparisonOf,
  type Variant,
} from "./study/compare/compare.ts";
export { knownQuantities } from "./study/compare/compareQuantities.ts";
export { type Goal, GoalError, parseGoal } from "./study/compare/goal.ts";
// a leadpipe made for a goal
export {
  type Design,
  type DesignOptions,
  design,
  designSteps,
  type StartEnd,
} from "./study/design/design.ts";
export { DESIGN_DEFAULTS, STATION_DEFAULTS, usualLimits } from "./study/design/designDefaults.ts";
export { type Freedom, freedomOf } from "./study/design/designFreedom.ts";
export { type DesignGoal, goalLike, parseDesignGoal } from "./study/design/designGoal.ts";
export { type MandrelStation, mandrelStations } from "./study/design/designStations.ts";
// slots of notes, and the claims that rest on lips and stream
export { closedSteps, feltSteps } from "./study/feel/felt.ts";
export { MODAL_COUNT, modalColumn } from "./study/feel/modalColumn.ts";
export { type GapSlots, type NoteSlot, type Pressure, slotSteps } from "./study/feel/slots.ts";
// the air column: curve, resonances, what the gap does to them
export { type CavityDimensions, cavityElements } from "./study/instrument/cavity.ts";
export { type AtGap, Exploration, type Explored } from "./study/instrument/exploration.ts";
export { type GapSweep, type GapSweepOptions, gapSweep } from "./study/instrument/gapSweep.ts";
export { type ImpedanceCurve, impedanceCurve } from "./study/instrument/impedanceCurve.ts";
export { Instrument, type InstrumentOptions, type Mode } from "./study/instrument/instrument.ts";
export { inContext, type ModeInContext } from "./study/instrument/modeTable.ts";
export { type StandingWave, standingWave } from "./study/instrument/standingWave.ts";
// a measured impedance held against the model
export { columnFitSteps, MOST_STEPS } from "./study/measured/columnFit.ts";
export type { ColumnFit, Estimate } from "./study/measured/columnFitResult.ts";
export { UNKNOWNS, type UnknownName } from "./study/measured/columnUnknowns.ts";
export { between, type Overlay, overlay } from "./study/measured/measured.ts";
export { type MeasuredImpedance, readMeasured } from "./study/measured/measuredCsv.ts";
export type { Reading } from "./study/measured/measuredReading.ts";
// how sure a change is
export {
  type ChangeUncertainty,
  changeUncertainty,
  type Uncertain,
} from "./study/uncertainty/changeUncertainty.ts";
export { Contributions } from "./study/uncertainty/contributions.ts";
export {
  type Drawn,
  MOST_TRIALS,
  type MonteCarlo,
  monteCarloSteps,
} from "./study/uncertainty/monteCarlo.ts";
// a blind trial: its order, and what it found
export { analysisSteps, type TrialAnalysis } from "./trial/analysis.ts";
export { sealTrial, type TrialPlan } from "./trial/seal.ts";
export type { Trial } from "./trial/trial.ts";

// lengths as a person types and reads them
export { formatLength } from "./units/formatLength.ts";
export { InputError, quoteTyped } from "./units/inputError.ts";
export { LengthError, type LengthUnit, parseLengthMm } from "./units/length.ts";
export { parseFrequencyRange, parseRange } from "./units/range.ts";
export {
  type Advice,
  MEASURE_A_WRAP,
  ORDER_OF_REGRET,
  OTHER_WAYS,
  taperWords,
  WRAP_ONLY_WIDENS,
  wrapWords,
} from "./words/bench/benchAdvice.ts";
export {
  CUT_DIMENSION,
  CUT_OUTCOME,
  planWords,
  SIZE_UNIT,
  stageSize,
  WAY_TITLE,
  wayWords,
} from "./words/bench/cut.ts";
export { type CutCard, cutCard } from "./words/bench/cutCard.ts";
export { CONFIRMATION, cautionWords, HELD_BACK } from "./words/bench/cutCautions.ts";
export { fitCellWords, OUTCOME, TOUCHES } from "./words/bench/fit.ts";
export { fitMatrixCsv } from "./words/bench/fitMatrixCsv.ts";
export { spreadWords } from "./words/bench/fitSpread.ts";
export { GAUGE_ABOUT, GAUGE_KINDS, type GaugeKind, unknownLettersWords } from "./words/bench/gauges.ts";
export { NOT_KNOWN } from "./words/blown/notKnown.ts";
export { throatEdgeWords } from "./words/blown/throatEdge.ts";
export { designWords, freedomWords, worseWords } from "./words/design/designWords.ts";
export { GAP_KIND, gapKind, gapKindWords } from "./words/gapKinds.ts";
export {
  FAMILY,
  type Family,
  MOST_PARTIALS,
  noteLabel,
  noteText,
  type Partial,
  partialName,
  partialOf,
} from "./words/instruments.ts";
// findings in sentences
export { LIP_BIAS, ONLY_CHANGES } from "./words/lips.ts";
export { columnFitWords } from "./words/measured/columnFitWords.ts";
export { levelWords } from "./words/measured/levelWords.ts";
export { apartWords, peakWords } from "./words/measured/peakWords.ts";
export { readingWords } from "./words/measured/readingWords.ts";
export { calibrationWarnings, UNSEEN } from "./words/response/calibrationWords.ts";
export { evidenceWords } from "./words/verdicts/evidence.ts";
export { FINDING, RESISTANCE_FINDING } from "./words/verdicts/findings.ts";
export { noticeableLines, thresholdCheck } from "./words/verdicts/noticeable.ts";
export { type Claim, RULE } from "./words/verdicts/rules.ts";
