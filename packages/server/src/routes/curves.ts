import { Hono } from 'hono'
import type { AppEnv, House } from '../context.ts'

export const curveRoutes = (_house: House) => new Hono<AppEnv>()
