/** Asked now and then by long work: true when nobody waits for the answer any more. */
export interface Cancellation {
  readonly cancelled: boolean;
}

export const never: Cancellation = { cancelled: false };

/** Thrown by work that noticed its cancellation; the border that started the work catches it. */
export class Cancelled extends Error {
  constructor() {
    super('cancelled');
  }
}
