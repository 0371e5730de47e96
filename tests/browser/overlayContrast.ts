import type { Page } from 'playwright-core';

/** Least contrast of text: W3C, Web Content Accessibility Guidelines 2.2, criterion 1.4.3, AA. */
const LEAST_CONTRAST = 4.5;

/**
 * Checks the texts over the picture, where axe-core cannot determine the background. Each text needs an opaque background of
 * its own and enough contrast to it. Stale figures are dimmed on purpose and skipped. Returns the number of texts, and one
 * line per fault.
 */
export const overlayFaults = (page: Page): Promise<{ texts: number; faults: string[] }> =>
  page.evaluate((least) => {
    const canvas = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
    if (canvas === null) throw new Error('no canvas to read colours with');
    const rgba = (colour: string) => {
      canvas.clearRect(0, 0, 1, 1);
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
      return [...canvas.getImageData(0, 0, 1, 1).data];
    };
    const luminance = (colour: number[]) => {
      const [r, g, b] = colour.map((value) => {
        const c = value / 255;
        return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const inkOf = (element: Element) => {
      const { fill, color } = getComputedStyle(element);
      return element instanceof SVGElement ? fill : color;
    };
    const viewer = document.querySelector('.viewer');
    const faults: string[] = [];
    let texts = 0;
    for (const element of viewer?.querySelectorAll('*') ?? []) {
      const text = [...element.childNodes]
        .filter((node) => node.nodeType === Node.TEXT_NODE)
        .map((node) => node.textContent?.trim())
        .join(' ')
        .trim();
      const isDimmed = element.closest('[data-stale], :disabled, .unseen') !== null;
      if (text === '' || isDimmed || !element.checkVisibility({ visibilityProperty: true })) continue;
      texts++;
      let ground: number[] | undefined;
      for (let at: Element | null = element; at !== null && at !== viewer; at = at.parentElement) {
        const colour = rgba(getComputedStyle(at).backgroundColor);
        if (colour[3] === 255) {
          ground = colour;
          break;
        }
      }
      if (ground === undefined) {
        faults.push(`no opaque background: ${text}`);
        continue;
      }
      const [low, high] = [luminance(rgba(inkOf(element))), luminance(ground)].sort((a, b) => a - b);
      const contrast = (high + 0.05) / (low + 0.05);
      if (contrast < least) faults.push(`contrast of ${contrast.toFixed(2)}: ${text}`);
    }
    return { texts, faults };
  }, LEAST_CONTRAST);
