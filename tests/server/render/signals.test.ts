/** Signal words on the card: red, orange, yellow and blue, and the alert symbol for what hurts somebody (ANSI Z535.4, as electromark.com and safetylabels.com show it). */
import type { Element } from 'hast';
import { describe, expect, test } from 'vitest';
import { openText } from '../../support/check.ts';
import { elementsIn, found, textIn } from '../../support/html.ts';

const html =
  openText(`use "std:signals"
item oven : heater "the oven" normally off
hazard fire   "fire"   while oven on { will kill    danger  "Fire." }
hazard blast  "blast"  while oven on { could kill   warning "Blast." }
hazard heat   "heat"   while oven on { could injure caution "Heat." }
hazard scorch "scorch" while oven on { could damage note    "Scorch." }
card bake "Bake" {
  number "1" revision "A" crew baker "Baker"
  danger fire
  warning blast
  caution heat
  note scorch
  note "The oven is new."
  step set oven on
  step set oven off
}`).render('main.card')[0]?.html ?? '';

const style = html.replaceAll(/\s+/g, ' ');

/** The colour that a class of admonition gives its signal word or what stands behind it, with names of colours looked up. */
function colour(which: string, property: 'background' | 'color'): string {
  const rule = new RegExp(`\\.is-${which} ?> ?\\.signal ?\\{([^}]*)\\}`).exec(style)?.[1] ?? '';
  const value = new RegExp(`(?:^|[;{ ])${property}: ?([^;} ]+)`).exec(rule)?.[1] ?? '';
  const name = /var\((--[a-z]+)\)/.exec(value)?.[1];
  return name ? (new RegExp(`${name}: ?(#[0-9a-f]+)`).exec(style)?.[1] ?? '') : value;
}

/** Red, green and blue, of 1 each. */
function parts(hex: string): readonly [number, number, number] {
  const long = hex.length === 4 ? hex.slice(1).replaceAll(/./g, '$&$&') : hex.slice(1);
  return [0, 2, 4].map((at) => Number.parseInt(long.slice(at, at + 2), 16) / 255) as [number, number, number];
}

/** Relative luminance and contrast as WCAG 2 has them. */
function contrast(one: string, other: string): number {
  const luminance = (hex: string) => {
    const [red, green, blue] = parts(hex).map((part) =>
      part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
  };
  const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

/** Degrees on the circle of colours. */
function hue(hex: string): number {
  const [red, green, blue] = parts(hex);
  const [most, least] = [Math.max(red, green, blue), Math.min(red, green, blue)];
  const turned =
    most === red
      ? (green - blue) / (most - least)
      : most === green
        ? 2 + (blue - red) / (most - least)
        : 4 + (red - green) / (most - least);
  return (turned * 60 + 360) % 360;
}

describe.each([
  ['danger', -20, 15],
  ['warning', 15, 40],
  ['caution', 40, 65],
  ['notice', 195, 250],
] as const)('%s', (which, from, to) => {
  test('has its colour', () => {
    const degrees = hue(colour(which, 'background'));
    expect(degrees > 180 && from < 0 ? degrees - 360 : degrees).toBeGreaterThan(from);
    expect(degrees > 180 && from < 0 ? degrees - 360 : degrees).toBeLessThan(to);
  });
  test('can be read on it', () => {
    expect(contrast(colour(which, 'background'), colour(which, 'color'))).toBeGreaterThanOrEqual(4.5);
  });
});

test('the alert symbol stands by what hurts somebody, and a note of another sort has no colour', () => {
  const shown = found(html, 'admonition').map((admonition: Element) => {
    const classes = admonition.properties.className as string[];
    const symbols = elementsIn(admonition).filter(({ tagName }) => tagName === 'svg').length;
    return [textIn(admonition).trim().split('.')[0], classes.filter((one) => one.startsWith('is-')).join(' '), symbols];
  });
  expect(shown).toEqual([
    [expect.stringContaining('Fire'), 'is-danger', 1],
    [expect.stringContaining('Blast'), 'is-warning', 1],
    [expect.stringContaining('Heat'), 'is-caution', 1],
    [expect.stringContaining('Scorch'), 'is-note is-notice', 0],
    [expect.stringContaining('The oven is new'), 'is-note', 0],
  ]);
});
