/** esbuild bundles a page's styles beside its script. */
declare module '*.css';
