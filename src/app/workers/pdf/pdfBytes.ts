import pdfmake from 'pdfmake/build/pdfmake.js';
import fonts from 'pdfmake/build/vfs_fonts.js';
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';

pdfmake.addVirtualFileSystem(fonts);
pdfmake.addFonts({
  Roboto: {
    normal: 'Roboto-Regular.ttf',
    bold: 'Roboto-Medium.ttf',
    italics: 'Roboto-Italic.ttf',
    bolditalics: 'Roboto-MediumItalic.ttf',
  },
});

/** The bytes of a PDF document, with the fonts that pdfmake brings. */
export const pdfBytes = async (definition: TDocumentDefinitions): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(await pdfmake.createPdf(definition).getBuffer());
