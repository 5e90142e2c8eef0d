import { useState } from 'react';
import { thing } from '../app/index.ts';

export const planted = [useState, thing];
