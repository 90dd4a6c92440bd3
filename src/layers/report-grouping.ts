/** What `report.json` says of grouping. */

/** How scans were gathered into stations. */
export interface ReportedGrouping {
  /** Stations of two scans or more by what joined them, and those of one. */
  readonly stations: {
    readonly name: number
    readonly time: number
    readonly likeness: number
    readonly hand: number
    readonly one_scan: number
  }
  /** Scans that no sample's name speaks for, and whose time is missing or without seconds. */
  readonly untimed_scans: number
  /** Groups that may be wrong; `other` is the station that it may be one with. */
  readonly unsure: readonly {
    readonly station: string
    readonly why: string
    readonly other: string | null
  }[]
}
