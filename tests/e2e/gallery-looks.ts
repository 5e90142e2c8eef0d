import type { Page } from 'playwright-core';

/** 20 mm on a 10-inch tablet of 1280 by 800: 1509 px across 254 mm. */
const LEAST_TARGET_PX = 118.9;

/** Controls of the page that are smaller than a knuckle needs. */
export const tooSmall = (page: Page): Promise<string[]> =>
  page.evaluate(
    (least) =>
      [...document.querySelectorAll('button, a, [role=button]')]
        .filter((control) => control.checkVisibility())
        .map((control) => ({ text: control.textContent, box: control.getBoundingClientRect() }))
        .filter(({ box }) => Math.min(box.width, box.height) < least)
        .map(({ text, box }) => `${text}: ${box.width.toFixed(0)} by ${box.height.toFixed(0)}`),
    LEAST_TARGET_PX,
  );

/** Parts of the machine page that lie over each other or beyond the edge, and text that its box cuts off. */
export const misplaced = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const covered = document.querySelector('.question, .pad.is-open') !== null;
    const parts = covered
      ? ['.question-words', '.halves .big-button', '.question > .big-button']
      : [
          '.top-bar',
          '.step',
          '.target-head',
          '.target-size b',
          '.beside > *',
          '.caution-full',
          '.amounts',
          '.conversation',
          '.button-row',
        ];
    const boxOf = (element: Element) => {
      const { left, right, top, bottom } = element.getBoundingClientRect();
      if (!element.matches('.target-size b')) return { left, right, top, bottom };
      // The box of a line of text has room for accents; figures fill about the middle three fifths.
      const fifth = (bottom - top) / 5;
      return { left, right, top: top + fifth, bottom: bottom - fifth };
    };
    const boxes = parts.flatMap((part) => [...document.querySelectorAll(part)].map((element) => ({ part, box: boxOf(element) })));
    const beyond = boxes.filter(
      ({ box }) => box.left < -1 || box.top < -1 || box.right > innerWidth + 1 || box.bottom > innerHeight + 1,
    );
    const over = boxes.flatMap(({ part, box }, index) =>
      boxes
        .slice(index + 1)
        .filter(({ box: other }) => {
          const across = Math.min(box.right, other.right) - Math.max(box.left, other.left);
          const down = Math.min(box.bottom, other.bottom) - Math.max(box.top, other.top);
          return across > 1 && down > 1;
        })
        .map((other) => `${part} and ${other.part}`),
    );
    const whole =
      '.big-label, .figure dd, .figure dt, .caution-full, .reply, .notice p, .target-head, .caution-line, .halves .big-button';
    const cut = [...document.querySelectorAll(whole)]
      .filter((element) => element.checkVisibility() && element.clientWidth > 0)
      .filter(
        (element) =>
          element.scrollWidth > element.clientWidth + 1 ||
          (getComputedStyle(element).overflowY !== 'visible' && element.scrollHeight > element.clientHeight + 1),
      )
      .map((element) => `cut: ${element.textContent}`);
    return [...beyond.map(({ part }) => `beyond the edge: ${part}`), ...over, ...cut];
  });

/** Texts of the drawing that lie over each other or leave it, in the font of this browser. */
export const crowded = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const drawing = document.querySelector('.layout-beside .drawing svg');
    const edge = drawing?.getBoundingClientRect();
    const texts = [...(drawing?.querySelectorAll('text') ?? [])].map((text) => ({
      said: text.textContent,
      box: text.getBoundingClientRect(),
    }));
    const wrong = texts.length < 4 || edge === undefined ? ['no drawing'] : [];
    texts.forEach(({ said, box }, index) => {
      if (edge !== undefined && (box.left < edge.left - 1 || box.right > edge.right + 1))
        wrong.push(`${said} leaves the drawing`);
      for (const other of texts.slice(index + 1)) {
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
        // A line has room for accents above its figures.
        if (across > 1 && down > 4) wrong.push(`${said} and ${other.said}`);
      }
    });
    return wrong;
  });
