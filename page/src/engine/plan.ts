// SPDX-License-Identifier: MIT
// Short names for the parts of the plan.
import type { PlanDocument } from './plan.generated';

export type Plan = PlanDocument;
export type Post = Plan['posts'][number];
export type Bay = Plan['bays'][number];
export type Rail = Plan['rails'][number];
export type StickCut = Plan['cuts']['sticks'][number];
export type OrderLine = Plan['quantities'][number];
export type Check = Plan['checks'][number];
