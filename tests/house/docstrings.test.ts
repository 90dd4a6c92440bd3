/** Every function and class that a module hands out says what it gives; every module what it is. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative, resolve } from 'node:path'
import ts from 'typescript'
import { expect, test } from 'vitest'

const SRC = resolve(import.meta.dirname, '../../src')

const MODULES = readdirSync(SRC, { recursive: true, withFileTypes: true })
  .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
  .map((entry) => join(entry.parentPath, entry.name))

type Named = ts.FunctionDeclaration | ts.ClassDeclaration | ts.MethodDeclaration

function isExported({ modifiers }: Named): boolean {
  return modifiers?.some(({ kind }) => kind === ts.SyntaxKind.ExportKeyword) ?? false
}

/** Methods that anyone may call; what an interface of another library asks for explains itself. */
function openMethods(declared: ts.ClassDeclaration): ts.MethodDeclaration[] {
  if (declared.heritageClauses !== undefined) return []
  return declared.members.filter(ts.isMethodDeclaration).filter(({ name, modifiers }) => {
    const isPrivate = modifiers?.some(({ kind }) => kind === ts.SyntaxKind.PrivateKeyword)
    return !isPrivate && !ts.isPrivateIdentifier(name)
  })
}

/** What of a module has no docstring, as `file: name`. */
function undocumented(file: string, text: string): string[] {
  const module = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true)
  const handedOut = module.statements
    .filter((it) => ts.isFunctionDeclaration(it) || ts.isClassDeclaration(it))
    .filter(isExported)
    .flatMap((it): Named[] => (ts.isClassDeclaration(it) ? [it, ...openMethods(it)] : [it]))
  const without = handedOut.filter((it) => ts.getJSDocCommentsAndTags(it).length === 0)
  const names = without.map(({ name }) => name?.getText() ?? 'default')
  return [...(text.startsWith('/**') ? [] : ['the module']), ...names].map(
    (name) => `${relative(SRC, file)}: ${name}`,
  )
}

test('what modules hand out has a docstring', () => {
  expect(MODULES.length).toBeGreaterThan(300)
  expect(MODULES.flatMap((file) => undocumented(file, readFileSync(file, 'utf8')))).toEqual([])
})

test('the check itself sees what has none', () => {
  const text = 'export class A {\n  open() {}\n  #shut() {}\n}\n/** B. */\nexport function b() {}\n'
  expect(undocumented(join(SRC, 'x.ts'), text)).toEqual([
    'x.ts: the module',
    'x.ts: A',
    'x.ts: open',
  ])
})
