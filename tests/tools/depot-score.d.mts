import type { Night, Plan, Score } from "../../src/calc/yard/night.js";
export function checkPlan(night: unknown, plan: Plan): { broken: string[]; score: Score; peakKw: number };
export function judge(night: unknown, score: Score, gapPercent?: number): { status: number; words: string };
export function readNight(night: Night): unknown;
