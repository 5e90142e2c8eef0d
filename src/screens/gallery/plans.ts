import { planSchema, type Plan } from '../../job/index.ts';
import inch from '../../shelf/demos/inch.job.json' with { type: 'json' };
import metric from '../../shelf/demos/metric.job.json' with { type: 'json' };

/** The two demo jobs, whose numbers are invented. */
export const inchPlan: Plan = planSchema.parse(inch.plan);
export const metricPlan: Plan = planSchema.parse(metric.plan);
