import { expect, test } from 'vitest'
import { fileKind } from './fileKind.ts'

const bytes = (text: string): Uint8Array => Uint8Array.from([...text].map((c) => c.charCodeAt(0)))

test.each([
  ['PK\u0003\u0004rest', 'a workbook (XLSX) or another ZIP archive'],
  ['\u0089PNG\r\n\u001a\n', 'a picture (PNG)'],
  ['\u00ff\u00d8\u00ff\u00e0', 'a picture (JPEG)'],
  ['%PDF-1.7\n', 'a document (PDF)'],
  ['glTF\u0002\u0000\u0000\u0000', 'a mesh (glTF, binary)'],
  ['solid hub\n facet normal 0 0 1\n', 'a mesh (STL)'],
  ['<!DOCTYPE html>\n<html>', 'a web page (HTML)'],
  ['{\n "asset": { "version": "2.0" } }', 'a mesh (glTF)'],
])('the file that begins with %j is %s', (text, kind) => expect(fileKind(bytes(text))).toBe(kind))

test.each([
  '',
  'PK',
  'activity,start,finish\n',
  'solid base of the crane, seen\n',
  '{ "schemaVersion": 1, "about": { "title": "A" } }',
  '{ "form": "shieldwright on-site ticks" }',
  'schemaVersion: 1\n',
])('%j may be what it is taken for', (text) => expect(fileKind(bytes(text))).toBeUndefined())
