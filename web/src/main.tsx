import '../../assets/fonts/shieldwright-sans.css'
import './look.css'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './app.tsx'

const place = document.getElementById('page')
if (!place) throw new Error('index.html has no element "page"')
createRoot(place).render(
  <StrictMode>
    <App />
  </StrictMode>,
)
