import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';

/** The bytes of a PDF document, with the fonts that pdfmake brings. Reads no other file. */
export async function pdfBytes(definition: TDocumentDefinitions): Promise<Uint8Array> {
  const { default: pdfmake } = await import('pdfmake');
  const fonts = join(dirname(createRequire(import.meta.url).resolve('pdfmake/package.json')), 'fonts/Roboto');
  const files = ['Regular', 'Medium', 'Italic', 'MediumItalic'].map((face) =>
    join(fonts, `Roboto-${face}.ttf`),
  );
  const [normal, bold, italics, bolditalics] = files;
  pdfmake.addFonts({ Roboto: { normal, bold, italics, bolditalics } });
  pdfmake.setLocalAccessPolicy((path) => files.includes(path));
  pdfmake.setUrlAccessPolicy(() => false);
  return pdfmake.createPdf(definition).getBuffer();
}
