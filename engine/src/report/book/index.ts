export { type BookIssue, type BookStep, bookPages } from './book.ts'
export { type BookPart, type BookStages, bookParts } from './parts.ts'
