import '@fontsource-variable/sofia-sans'
import './page.css'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { Page } from './page.tsx'

const place = document.getElementById('page')
if (!place) throw new Error('index.html has no element "page"')
createRoot(place).render(
  <StrictMode>
    <Page />
  </StrictMode>,
)
