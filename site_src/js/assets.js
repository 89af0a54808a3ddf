// @ts-check
// Where the calculator's files lie, relative to this folder. The build writes this file anew.

/**
 * @typedef {{
 *   runtime: string,                 folder of the runtime, ends in a slash
 *   core: string,                    zip of the core with this site's frames and parts
 *   sizes: Record<string, number>,   bytes of each file, for the progress line
 *   info: Record<string, string>,    what the runtime says about itself
 *   stylesheets?: string[],
 * }} Assets
 */

/** @type {Assets} */
export const assets = {runtime: '', core: '', sizes: {}, info: {}};
