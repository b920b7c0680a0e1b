import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { useEffect } from 'react'
import type { Light } from '../state.ts'
import { useRemembered } from './remembered.ts'

const LIGHTS: readonly Light[] = ['day', 'dark', 'sun']
const SYSTEMS: readonly UnitSystem[] = ['SI', 'US']

/** The light to show at first: what the reader's system asks for. More contrast is what sunlight asks for too. */
export function lightAtFirst(asks: (query: string) => boolean): Light {
  if (asks('(prefers-color-scheme: dark)')) return 'dark'
  return asks('(prefers-contrast: more)') ? 'sun' : 'day'
}

/** Day, dark or sunlight: as chosen before, else as the reader's system asks. */
export function useLight(): [Light, (light: Light) => void] {
  const [light, setLight] = useRemembered('light', LIGHTS, () => lightAtFirst((query) => matchMedia(query).matches))
  useEffect(() => {
    document.documentElement.dataset.light = light
  }, [light])
  return [light, setLight]
}

/** SI or US customary: as chosen before. */
export const useUnits = (): [UnitSystem, (system: UnitSystem) => void] => useRemembered('units', SYSTEMS, () => 'SI')
