import { execFileSync } from 'node:child_process'

/** Whether a program is on the PATH. */
export function installed(program: string): boolean {
  try {
    execFileSync('which', [program], { stdio: 'ignore' })
    return true
  } catch {
    return false
  }
}
