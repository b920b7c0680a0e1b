/** What a file may measure before it is read: far above any real project, far below what would choke the machine. */
export const largestProjectFile = 32 * 1024 * 1024
export const largestMeshFile = 256 * 1024 * 1024
