import { buildContent } from './buildContent.ts';
import type { Block, ReportContent, Table } from './content.ts';
import { escapeMarkdown, linesOf } from './escape.ts';
import { picturesOf } from './pictures.ts';
import type { ReportInput } from './reportInput.ts';

/** The clearance report as Markdown. It has no drawings; the map is a table. */
export const reportMarkdown = (input: ReportInput, pictures = picturesOf(input)): string =>
  markdownOf(buildContent(input, pictures));

function markdownOf(content: ReportContent): string {
  const lines = [
    `# ${escapeMarkdown(content.title)}`,
    escapeMarkdown(content.subtitle),
    `**${escapeMarkdown(content.verdict.words)}.** ${escapeMarkdown(content.verdict.sentence)}`,
    ...content.sections.flatMap((section) => [
      `## ${escapeMarkdown(section.title)}`,
      ...section.blocks.flatMap(blockOf),
    ]),
  ];
  return `${lines.join('\n\n')}\n`;
}

function blockOf(block: Block): string[] {
  switch (block.kind) {
    case 'text':
      return [linesOf(block.text).map(escapeMarkdown).join('\\\n')];
    case 'list':
      return [block.items.map((item) => `- ${escapeMarkdown(item)}`).join('\n')];
    case 'caution':
      return [block.items.map((item) => `> - ${escapeMarkdown(item)}`).join('\n')];
    case 'table':
      return [tableOf(block)];
    case 'drawing':
      return [];
    case 'folded':
      return [`### ${escapeMarkdown(block.title)}`, ...block.blocks.flatMap(blockOf)];
  }
}

function tableOf({ columns, rows }: Table): string {
  const line = (cells: string[]) => `| ${cells.join(' | ')} |`;
  return [
    line(columns.map(({ title }) => escapeMarkdown(title))),
    line(columns.map(({ figure }) => (figure ? '---:' : '---'))),
    ...rows.map(({ cells }) => line(cells.map(escapeMarkdown))),
  ].join('\n');
}
