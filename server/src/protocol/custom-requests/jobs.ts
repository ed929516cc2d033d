import type { Job, JobTime } from "../../features/jobs";
import type { JobStatus } from "../../features/jobs/status";
import type { OfDocument, OwnRequest } from "./request";

export type { Job } from "../../features/jobs";

export interface Jobs {
  /** Uris as the client wrote them. */
  readonly jobs: readonly Job[];
}

/** All jobs of the workspace, the open ones longest here first. What is not worked out yet comes with a later answer. */
export const JOBS: OwnRequest<JobTime, Jobs> = { method: "mendlog/jobs" };

/** Where the job of one log stands; `proving` is a line from 0. */
export const JOB_STATUS: OwnRequest<OfDocument & JobTime, JobStatus> = { method: "mendlog/jobStatus" };

/**
 * Sent by the server when one of these requests would be answered otherwise than the last time; once, until it is asked
 * again. A client that shows nothing does not ask, and then nothing is worked out and nothing is sent.
 */
export const JOBS_CHANGED = "mendlog/jobsChanged";
