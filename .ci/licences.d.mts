import type { Metafile } from 'esbuild';

export function foldersIn(metafiles: readonly Metafile[]): string[];
export function noticesOf(folders: readonly string[]): string;
