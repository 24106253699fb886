/** Data that stands in each exported card, written small. */
import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';

/** Of whatever JSON holds: `unpacked` gives the same back. The same bytes on any machine. */
export const packed = (value: unknown): string => base64(deflateSync(strToU8(JSON.stringify(value)), { level: 9 }));

export const unpacked = (text: string): unknown => JSON.parse(strFromU8(inflateSync(strToU8(atob(text), true))));

export const base64 = (bytes: Uint8Array): string => btoa(strFromU8(bytes, true));
